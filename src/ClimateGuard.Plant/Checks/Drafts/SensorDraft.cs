namespace ClimateGuard.Plant;

/// <summary>A sensor as written; null means left out.</summary>
public sealed record SensorDraft
{
    /// <summary>The id.</summary>
    public string? Id { get; init; }

    /// <summary>What it measures.</summary>
    public SensorQuantity? Quantity { get; init; }

    /// <summary>Where it sits.</summary>
    public SensorPlace? Place { get; init; }

    /// <summary>Id of its zone.</summary>
    public string? Zone { get; init; }

    /// <summary>Id of its machine.</summary>
    public string? Machine { get; init; }

    /// <summary>Id of its air handler.</summary>
    public string? AirHandler { get; init; }

    /// <summary>Height above the floor, in m.</summary>
    public double? HeightM { get; init; }

    /// <summary>Unit of a payload that names none.</summary>
    public string? Unit { get; init; }

    /// <summary>Its own topic.</summary>
    public string? Topic { get; init; }

    /// <summary>How often it reports, in s.</summary>
    public double? PeriodS { get; init; }

    /// <summary>Whether it reports only changes.</summary>
    public bool? ReportsOnChange { get; init; }

    /// <summary>The longest it stays silent while nothing changes, in s.</summary>
    public double? HeartbeatS { get; init; }

    /// <summary>What kind of device measures.</summary>
    public SensorDevice? Device { get; init; }

    /// <summary>What a current loop means by 4 mA and by 20 mA, in the canonical unit.</summary>
    public IReadOnlyList<double?>? LoopRange { get; init; }

    /// <summary>Step of its values, in the canonical unit.</summary>
    public double? Resolution { get; init; }

    /// <summary>Standard uncertainty of a reading, in K or the canonical unit.</summary>
    public double? UncertaintyK { get; init; }

    /// <summary>Time constant, in s.</summary>
    public double? TimeConstantS { get; init; }

    /// <summary>Least and greatest plausible value, in the canonical unit.</summary>
    public IReadOnlyList<double?>? Plausible { get; init; }

    /// <summary>Its calibrations.</summary>
    public IReadOnlyList<CalibrationDraft?>? Calibrations { get; init; }
}

/// <summary>A calibration as written; null means left out.</summary>
public sealed record CalibrationDraft
{
    /// <summary>The time from which it holds, RFC 3339.</summary>
    public string? From { get; init; }

    /// <summary>Reading minus truth, in the canonical unit.</summary>
    public double? Offset { get; init; }

    /// <summary>Standard uncertainty of the offset, in the canonical unit.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>The physical sensor.</summary>
    public string? Instance { get; init; }
}
