namespace ClimateGuard.Plant;

/// <summary>The ballscrew of a machine without linear scales: it is the length standard, and it grows away from its fixed bearing.</summary>
/// <remarks>
/// The expansion coefficient of the scale is then that of the screw and its temperature that of the screw. Growth of the screw shifts the
/// position of everything: at the datum by α·(0 − bearing)·ΔT. Immutable.
/// </remarks>
public sealed record Screw
{
    /// <summary>Where the fixed bearing stands along the axis, from the datum of the work, in mm; negative on the low side.</summary>
    public required double FixedBearingMillimetres { get; init; }

    /// <summary>The axis it drives.</summary>
    public Axis Axis { get; init; } = Axis.X;

    /// <summary>How much warmer than the air it becomes at full load, in K; 5 to 20 in fast cycling (common practice, no source).</summary>
    public double RiseKelvins { get; init; }
}
