using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>What the model and the sensors said of a machine at one moment of an operation; NaN where it is not known.</summary>
/// <param name="Time">When.</param>
/// <param name="Known">Every input that the effect needs was valid.</param>
/// <param name="AirCelsius">Local air.</param>
/// <param name="CoolantCelsius">Coolant over the part; NaN when it does not run.</param>
/// <param name="PartCelsius">The part, as the model follows it.</param>
/// <param name="UPartKelvins">Its standard uncertainty.</param>
/// <param name="ScaleCelsius">The machine's scale.</param>
/// <param name="EpsMicrometresPerMetre">αs·dTs·(1 − ks) − αp·dTp·(1 − kp): how much larger the part becomes later at 20 °C.</param>
/// <param name="Drift">Tool minus work since the datum was probed, X, Y, Z in µm.</param>
/// <param name="SpindleLoad">How hard the spindle works, 0 to 1.</param>
/// <param name="GradientKelvins">High minus low air of the zone, in K; NaN when one of them is missing.</param>
/// <param name="Effects">Effect and uncertainty of each feature of the part, in the order of the plant file.</param>
public sealed record ExposureSample(
    DateTimeOffset Time,
    bool Known,
    double AirCelsius,
    double CoolantCelsius,
    double PartCelsius,
    double UPartKelvins,
    double ScaleCelsius,
    double EpsMicrometresPerMetre,
    AxisDrift Drift,
    double SpindleLoad,
    double GradientKelvins,
    IReadOnlyList<EffectNow> Effects);

/// <summary>Drift of the tool against the work, in µm.</summary>
/// <param name="X">Along X.</param>
/// <param name="Y">Along Y.</param>
/// <param name="Z">Along Z.</param>
public readonly record struct AxisDrift(double X, double Y, double Z)
{
    /// <summary>Along one axis.</summary>
    public double Along(Axis axis) => axis switch
    {
        Axis.X => X,
        Axis.Y => Y,
        _ => Z,
    };
}

/// <summary>The effect on one feature at one moment, in µm.</summary>
/// <param name="EffectMicrometres">With its sign; diametral for position and coaxiality.</param>
/// <param name="UMicrometres">Standard uncertainty.</param>
public readonly record struct EffectNow(double EffectMicrometres, double UMicrometres);
