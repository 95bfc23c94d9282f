namespace ClimateGuard.Thermal;

/// <summary>The effect of temperature on one feature at one moment, seen later at 20 °C.</summary>
/// <remarks>
/// Positive: larger, or farther from its datum, than nominal. Position and coaxiality are diametral, 2·|d| of the worst point, and never
/// negative; for them mismatch and drift are what each would give alone, so they need not add up. Equality by members; immutable.
/// </remarks>
/// <param name="EffectMicrometres">The whole effect, in µm.</param>
/// <param name="MismatchMicrometres">What part and scale temperature do, in µm: probing the datum again does not take it away.</param>
/// <param name="DriftMicrometres">What drift since the datum was probed does, in µm: probing again takes it away.</param>
/// <param name="UMicrometres">Standard uncertainty, in µm.</param>
public readonly record struct FeatureEffect(
    double EffectMicrometres, double MismatchMicrometres, double DriftMicrometres, double UMicrometres);
