namespace ClimateGuard.Enclosure;

/// <summary>What a diagnosis found.</summary>
public sealed record DiagnosisReport
{
    /// <summary>The findings, by day and then the likeliest first; candidates below even odds among them.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How likely it is that none of the causes is present, by day (null: the whole time) and air handler.</summary>
    public required IReadOnlyList<NoneOfThese> None { get; init; }

    /// <summary>What was wrong with the readings, and days that were too short to judge.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>The remainder after all causes.</summary>
/// <param name="Day">The local day, or null for the whole time.</param>
/// <param name="AirHandler">The air handler.</param>
/// <param name="Probability">How likely none of the causes is present.</param>
public sealed record NoneOfThese(DateOnly? Day, string AirHandler, double Probability);

/// <summary>How to diagnose.</summary>
public sealed record DiagnosisOptions
{
    /// <summary>The time zone that makes the days; from the plant file.</summary>
    public TimeZoneInfo TimeZone { get; init; } = TimeZoneInfo.Utc;

    /// <summary>Whether each day gets its own findings; else one finding a cause, with the days on which it showed.</summary>
    public bool ByDay { get; init; }

    /// <summary>How likely each cause is to begin with.</summary>
    public CausePriors Priors { get; init; } = CausePriors.Start;
}
