namespace ClimateGuard.Plant;

/// <summary>A machine with the sensitivities that temperature acts on.</summary>
/// <remarks>Values marked default are plausible, not measurements of any machine: replace them by a drift test of your own.</remarks>
public sealed record Machine
{
    /// <summary>The id.</summary>
    public required string Id { get; init; }

    /// <summary>The name people use; empty means the id.</summary>
    public string Name { get; init; } = "";

    /// <summary>What kind of machine it is, in the shop's words.</summary>
    public string Kind { get; init; } = "machine";

    /// <summary>The zone whose air it stands in.</summary>
    public required string Zone { get; init; }

    /// <summary>The working space X, Y, Z in mm, or empty when not stated.</summary>
    public IReadOnlyList<double> EnvelopeMillimetres { get; init; } = [];

    /// <summary>Positioning accuracy in µm (after ISO 230-2), or null when not stated.</summary>
    public double? AccuracyMicrometres { get; init; }

    /// <summary>The length standard of the linear axes.</summary>
    public Scale Scale { get; init; } = new();

    /// <summary>The control or program already corrects for the part's expansion (kp = 1).</summary>
    public bool PartCompensated { get; init; }

    /// <summary>The id of the sensor in the coolant or dielectric, or null when the machine cuts dry.</summary>
    public string? CoolantSensor { get; init; }

    /// <summary>How the coolant meets the part.</summary>
    public CoolantMedium CoolantMedium { get; init; } = CoolantMedium.Flood;

    /// <summary>Environment modes of the structure.</summary>
    public IReadOnlyList<DriftMode> Drift { get; init; } = [];

    /// <summary>Growth modes of the spindle.</summary>
    public IReadOnlyList<SpindleMode> Spindle { get; init; } = [];

    /// <summary>The rotary axis about which a two-sided part is indexed.</summary>
    public RotaryAxis IndexAxis { get; init; } = RotaryAxis.B;

    /// <summary>The sensor at the place where blanks or pallets for this machine wait, or null when they wait inside.</summary>
    public string? StorageSensor { get; init; }

    /// <summary>Cost of an hour of this machine in the shop's currency, or null for <see cref="Rates.MachinePerHour"/>.</summary>
    public double? RatePerHour { get; init; }
}

/// <summary>The length standard of a machine.</summary>
public sealed record Scale
{
    /// <summary>Expansion coefficient, in µm/(m K), in [-2, 40].</summary>
    public double AlphaMicrometresPerMetreKelvin { get; init; } = 10.5;

    /// <summary>Standard uncertainty of the coefficient, in µm/(m K).</summary>
    public double UAlphaMicrometresPerMetreKelvin { get; init; } = 0.5;

    /// <summary>Time constant with which the scale follows the local air.</summary>
    public TimeSpan TimeConstant { get; init; } = TimeSpan.FromMinutes(40);

    /// <summary>The control already corrects the scale to 20 °C (ks = 1).</summary>
    public bool Compensated { get; init; }

    /// <summary>The ballscrew that stands in for a linear scale, or null when there are linear scales.</summary>
    public Screw? Screw { get; init; }
}

/// <summary>How the coolant meets the part.</summary>
public enum CoolantMedium
{
    /// <summary>Flooded surfaces.</summary>
    Flood,

    /// <summary>Mist or minimum-quantity lubrication.</summary>
    Mist,

    /// <summary>Submerged, as in an erosion machine.</summary>
    Submerged,
}

/// <summary>A rotary axis of a machine.</summary>
public enum RotaryAxis
{
    /// <summary>About X.</summary>
    A,

    /// <summary>About Y.</summary>
    B,

    /// <summary>About Z.</summary>
    C,
}

/// <summary>One mode in which the structure of a machine follows the air: dθ/dt = (T_air − 20 − θ)/τ, displacement S·θ.</summary>
/// <param name="Axis">The axis the tool moves along, relative to the work.</param>
/// <param name="SensitivityMicrometresPerKelvin">S, in µm/K; fast and slow modes often have opposite signs.</param>
/// <param name="TimeConstant">τ.</param>
/// <param name="RelativeUncertainty">Standard uncertainty of S as a share of S; 0.3 when not stated.</param>
/// <param name="Provenance">Where S and τ come from.</param>
public sealed record DriftMode(
    Axis Axis,
    double SensitivityMicrometresPerKelvin,
    TimeSpan TimeConstant,
    double RelativeUncertainty = 0.3,
    Provenance Provenance = Provenance.Default);

/// <summary>One mode in which a running spindle grows.</summary>
/// <param name="Axis">The axis the tool moves along.</param>
/// <param name="FullMicrometres">Displacement at full load after a long time, in µm.</param>
/// <param name="TimeConstant">Time constant of growth and decay.</param>
public sealed record SpindleMode(Axis Axis, double FullMicrometres, TimeSpan TimeConstant);

/// <summary>Where a number comes from.</summary>
public enum Provenance
{
    /// <summary>A default that nobody has measured here.</summary>
    Default,

    /// <summary>Measured on this machine or part.</summary>
    Measured,

    /// <summary>Fitted from a record of this machine or part.</summary>
    Fitted,
}
