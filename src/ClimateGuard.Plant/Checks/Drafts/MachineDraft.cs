namespace ClimateGuard.Plant;

/// <summary>A machine as written; null means left out.</summary>
public sealed record MachineDraft
{
    /// <summary>The id.</summary>
    public string? Id { get; init; }

    /// <summary>The name people use.</summary>
    public string? Name { get; init; }

    /// <summary>What kind of machine it is.</summary>
    public string? Kind { get; init; }

    /// <summary>Id of its zone.</summary>
    public string? Zone { get; init; }

    /// <summary>Working space X, Y, Z, in mm.</summary>
    public IReadOnlyList<double?>? EnvelopeMm { get; init; }

    /// <summary>Positioning accuracy, in µm.</summary>
    public double? AccuracyUm { get; init; }

    /// <summary>The length standard.</summary>
    public ScaleDraft? Scale { get; init; }

    /// <summary>Whether the control corrects for the part's expansion.</summary>
    public bool? PartCompensated { get; init; }

    /// <summary>Id of the sensor in its coolant or dielectric.</summary>
    public string? Coolant { get; init; }

    /// <summary>How the coolant meets the part.</summary>
    public CoolantMedium? CoolantMedium { get; init; }

    /// <summary>Rotary axis of a two-sided part.</summary>
    public RotaryAxis? IndexAxis { get; init; }

    /// <summary>Id of the sensor where its blanks or pallets wait.</summary>
    public string? Storage { get; init; }

    /// <summary>Cost of an hour of this machine.</summary>
    public double? RatePerHour { get; init; }

    /// <summary>Environment modes.</summary>
    public IReadOnlyList<DriftDraft?>? Drift { get; init; }

    /// <summary>Spindle modes.</summary>
    public IReadOnlyList<SpindleDraft?>? Spindle { get; init; }
}

/// <summary>The length standard of a machine as written; null means left out.</summary>
public sealed record ScaleDraft
{
    /// <summary>Expansion coefficient, in µm/(m K).</summary>
    public double? Alpha { get; init; }

    /// <summary>Its standard uncertainty, in µm/(m K).</summary>
    public double? UAlpha { get; init; }

    /// <summary>Time constant, in min.</summary>
    public double? TimeConstantMin { get; init; }

    /// <summary>Whether the control corrects the scale.</summary>
    public bool? Compensated { get; init; }

    /// <summary>The ballscrew that stands in for a linear scale.</summary>
    public ScrewDraft? Screw { get; init; }
}

/// <summary>An environment mode as written; null means left out.</summary>
public sealed record DriftDraft
{
    /// <summary>The axis.</summary>
    public Axis? Axis { get; init; }

    /// <summary>Sensitivity, in µm/K.</summary>
    public double? SensitivityUmPerK { get; init; }

    /// <summary>Time constant, in h.</summary>
    public double? TimeConstantH { get; init; }

    /// <summary>Standard uncertainty of the sensitivity, as a share of it.</summary>
    public double? RelativeUncertainty { get; init; }

    /// <summary>Where the numbers come from.</summary>
    public Provenance? Provenance { get; init; }
}

/// <summary>A spindle mode as written; null means left out.</summary>
public sealed record SpindleDraft
{
    /// <summary>The axis.</summary>
    public Axis? Axis { get; init; }

    /// <summary>Growth after a long time at full load, in µm.</summary>
    public double? FullUm { get; init; }

    /// <summary>Time constant, in min.</summary>
    public double? TimeConstantMin { get; init; }
}
