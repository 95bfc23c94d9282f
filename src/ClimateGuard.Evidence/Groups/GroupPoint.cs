namespace ClimateGuard.Evidence;

/// <summary>One part in the group analysis of a feature: measured against predicted, signed where the feature has a sign.</summary>
public sealed record GroupPoint
{
    /// <summary>Serial number.</summary>
    public required string Serial { get; init; }

    /// <summary>Id of the machine.</summary>
    public required string Machine { get; init; }

    /// <summary>When it was cut.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>The shift on its machine: parts of one episode are not independent.</summary>
    public required string Episode { get; init; }

    /// <summary>Measured, at 20 °C, in µm; of a pattern 2·scale·radius.</summary>
    public required double Measured { get; init; }

    /// <summary>Its standard uncertainty, in µm, above 0.</summary>
    public required double UMeasured { get; init; }

    /// <summary>Predicted, in µm.</summary>
    public required double Predicted { get; init; }

    /// <summary>Its standard uncertainty, in µm, above 0.</summary>
    public required double UPredicted { get; init; }

    /// <summary>The naive exposure: mean air − 20 during the cut, in K; NaN when not known.</summary>
    public required double NaiveAirKelvins { get; init; }

    /// <summary>The effect was beyond its budget.</summary>
    public required bool Exceeded { get; init; }

    /// <summary>The feature is out of tolerance.</summary>
    public required bool OutOfTolerance { get; init; }

    /// <summary>What else is recorded of the work: shift, operator, tool, program, device, batch.</summary>
    public required IReadOnlyDictionary<string, string> Labels { get; init; }
}
