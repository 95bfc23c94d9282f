using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>How the coming finish cut on one machine stands, with the reason in µm of one feature and the one action.</summary>
/// <remarks>
/// Equality by members. Times are UTC. Valid until <see cref="ValidUntil"/>, never longer: a reader that finds it older must take it as not known.
/// Immutable. Numbers are null when the level is <see cref="Level.NotKnown"/> or <see cref="Level.NoJob"/> and they could not be computed.
/// </remarks>
public sealed record Outlook
{
    /// <summary>Id of the machine.</summary>
    public required string Machine { get; init; }

    /// <summary>Serial number, or empty.</summary>
    public string Serial { get; init; } = "";

    /// <summary>Part number, or empty.</summary>
    public string Part { get; init; } = "";

    /// <summary>Operation, or empty.</summary>
    public string Operation { get; init; } = "";

    /// <summary>The level.</summary>
    public required Level Level { get; init; }

    /// <summary>The feature that decides, or null.</summary>
    public FeatureOutlook? Worst { get; init; }

    /// <summary>All features of the part, in the order of the plant file.</summary>
    public IReadOnlyList<FeatureOutlook> Features { get; init; } = [];

    /// <summary>Part temperature in °C, or null.</summary>
    public double? PartCelsius { get; init; }

    /// <summary>Its standard uncertainty in K, or null.</summary>
    public double? PartUncertaintyKelvins { get; init; }

    /// <summary>Scale temperature in °C, or null.</summary>
    public double? ScaleCelsius { get; init; }

    /// <summary>When the cut could start with the machine held as it is, counted from <see cref="IssuedAt"/>; null when it was not worked out.</summary>
    public EarliestStart? Start { get; init; }

    /// <summary>When the cut could start safely, or null when that was not worked out or is not within the forecast.</summary>
    public DateTimeOffset? EarliestSafe => Start switch
    {
        SafeNow => IssuedAt,
        SafeAt later => IssuedAt + later.Release,
        _ => null,
    };

    /// <summary>The reason, in plain words.</summary>
    public required string Reason { get; init; }

    /// <summary>The cause alone, for a screen that shows the numbers beside it; null where the reason is all there is.</summary>
    public string? Cause { get; init; }

    /// <summary>The one action.</summary>
    public required string Action { get; init; }

    /// <summary>Further actions, best first; the first is <see cref="Action"/>.</summary>
    public IReadOnlyList<string> Actions { get; init; } = [];

    /// <summary>The planned cut begins now and lasts so long; null without a job.</summary>
    public TimeSpan? CutDuration { get; init; }

    /// <summary>Counts up by one with each outlook of the machine that was published.</summary>
    public required long Seq { get; init; }

    /// <summary>When it was computed.</summary>
    public required DateTimeOffset IssuedAt { get; init; }

    /// <summary>Until when it may be trusted.</summary>
    public required DateTimeOffset ValidUntil { get; init; }
}

/// <summary>How one feature stands.</summary>
public sealed record FeatureOutlook
{
    /// <summary>Id of the feature.</summary>
    public required string Feature { get; init; }

    /// <summary>The effect now, in µm; positive: larger or farther from its datum than nominal when later at 20 °C.</summary>
    public required double EffectMicrometres { get; init; }

    /// <summary>The part of it that probing the datum again would take away, in µm.</summary>
    public required double DriftMicrometres { get; init; }

    /// <summary>The part of it that it would not, in µm.</summary>
    public required double MismatchMicrometres { get; init; }

    /// <summary>Standard uncertainty, in µm.</summary>
    public required double UMicrometres { get; init; }

    /// <summary>Budget, in µm.</summary>
    public required double BudgetMicrometres { get; init; }

    /// <summary>Tolerance, in µm (as in the plant file: diameter of the zone, or half width).</summary>
    public required double ToleranceMicrometres { get; init; }

    /// <summary>Probability that the effect leaves the budget during the cut.</summary>
    public required double Probability { get; init; }

    /// <summary>The largest effect expected during the cut, in µm, with its sign.</summary>
    public required double WorstMicrometres { get; init; }

    /// <summary>When during the cut it is expected, counted from its begin.</summary>
    public required TimeSpan WorstAfter { get; init; }

    /// <summary>The level of this feature alone.</summary>
    public required Level Level { get; init; }

    /// <summary>The expected effect over the coming cut, in µm, at even steps from begin to end.</summary>
    public IReadOnlyList<double> TrailMicrometres { get; init; } = [];
}
