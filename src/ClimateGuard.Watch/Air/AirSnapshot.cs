using ClimateGuard.Enclosure;

namespace ClimateGuard.Watch;

/// <summary>What is known of the air handlers and the air of the zones at one moment. Immutable.</summary>
public sealed record AirSnapshot
{
    /// <summary>Before the first pass.</summary>
    public static AirSnapshot Nothing { get; } = new();

    /// <summary>The end of the time judged last, or null before the first pass.</summary>
    public DateTimeOffset? JudgedAt { get; init; }

    /// <summary>From when on minutes are known, or null.</summary>
    public DateTimeOffset? KnownFrom { get; init; }

    /// <summary>The findings that stand, the likeliest first; hints after those that are sure.</summary>
    public IReadOnlyList<FindingCase> Findings { get; init; } = [];

    /// <summary>The findings closed last, newest first.</summary>
    public IReadOnlyList<FindingCase> Closed { get; init; } = [];

    /// <summary>The air handlers, in the order of the plant file.</summary>
    public IReadOnlyList<UnitSnapshot> Units { get; init; } = [];

    /// <summary>The zones, in the order of the plant file.</summary>
    public IReadOnlyList<ZoneSnapshot> Zones { get; init; } = [];

    /// <summary>What limits the judgement, in words.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];
}

/// <summary>One air handler and the zone it leads.</summary>
/// <param name="AirHandler">Id of the air handler.</param>
/// <param name="DaysKnown">How many earlier days tell what is usual.</param>
/// <param name="Ranked">All causes, the likeliest first, with the answers given.</param>
/// <param name="NoneOfThese">How likely none of them is present.</param>
/// <param name="NextCheck">The check that takes away the most doubt for each minute; null before the first judgement.</param>
public sealed record UnitSnapshot(string AirHandler, int DaysKnown, IReadOnlyList<Finding> Ranked, double NoneOfThese, CheckWorth? NextCheck);

/// <summary>The air of one zone.</summary>
/// <param name="Zone">Id of the zone.</param>
/// <param name="Regime">How its air is being kept.</param>
/// <param name="Since">Since when, as far as minutes are known.</param>
/// <param name="ErrorKelvins">Air minus set point, or null when not known.</param>
/// <param name="Excursion">The excursion that lasts, or null.</param>
public sealed record ZoneSnapshot(string Zone, Regime Regime, DateTimeOffset? Since, double? ErrorKelvins, ZoneExcursion? Excursion)
{
    /// <summary>What its air is expected to be, or null before the first pass.</summary>
    public ZoneForecast? Forecast { get; init; }

    /// <summary>How well its forecasts did so far, by regime and horizon.</summary>
    public IReadOnlyList<ForecastScore> Scores { get; init; } = [];
}
