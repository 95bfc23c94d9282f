namespace ClimateGuard.Simulator;

/// <summary>What temperature would truly do to one feature if it were cut at this moment.</summary>
/// <param name="Feature">Id of the feature.</param>
/// <param name="EffectMicrometres">Positive: later, at 20 °C, larger or farther from its datum than nominal; position and coaxiality are diametral.</param>
/// <param name="MismatchMicrometres">The part that a new probing would not take away.</param>
/// <param name="DriftMicrometres">The part that it would.</param>
/// <param name="PartCelsius">Mean temperature of the part, in °C.</param>
/// <param name="ScaleCelsius">Temperature of the scale, in °C.</param>
public sealed record FeatureTruth(
    string Feature, double EffectMicrometres, double MismatchMicrometres, double DriftMicrometres, double PartCelsius, double ScaleCelsius);
