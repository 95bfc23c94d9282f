namespace ClimateGuard.Watch;

/// <summary>What a dry block says of one probe.</summary>
/// <param name="Sensor">Id of the sensor.</param>
/// <param name="OffsetKelvins">Reading minus truth, in K.</param>
/// <param name="UncertaintyKelvins">Standard uncertainty (k = 1) of the offset, in K.</param>
/// <param name="RepeatabilityKelvins">Standard deviation of single readings within a minute, in K.</param>
/// <param name="DriftKelvins">How far the offset moved over the window, in K.</param>
/// <param name="Minutes">Minutes with readings in the window.</param>
public sealed record ProbeOffset(
    string Sensor, double OffsetKelvins, double UncertaintyKelvins, double RepeatabilityKelvins, double DriftKelvins, int Minutes)
{
    /// <summary>How much more it shows for each K, from two blocks; null with one. 0.01 is one per cent too much.</summary>
    public double? GainError { get; init; }
}

/// <summary>What a dry block says of all probes in it.</summary>
/// <param name="From">Begin of the settled window.</param>
/// <param name="To">End of the settled window; a calibration holds from then on.</param>
/// <param name="BlockCelsius">The block in the window, in °C: the reference, or the middle of the probes.</param>
/// <param name="Probes">The probes, in the order of the plant file.</param>
/// <param name="LeftOut">Probes that are not judged, and why.</param>
public sealed record BlockResult(
    DateTimeOffset From, DateTimeOffset To, double BlockCelsius, IReadOnlyList<ProbeOffset> Probes, IReadOnlyList<string> LeftOut);

/// <summary>What the block is known by.</summary>
/// <param name="Sensor">Index of a reference probe in the block, or -1.</param>
/// <param name="Celsius">The stated temperature of the block, or null.</param>
/// <param name="UncertaintyKelvins">Standard uncertainty (k = 1) of what is stated.</param>
public sealed record BlockReference(int Sensor, double? Celsius, double UncertaintyKelvins)
{
    /// <summary>The middle of the probes: right for their differences, which is what an effect depends on.</summary>
    public static BlockReference MiddleOfProbes { get; } = new(-1, null, 0);
}
