namespace ClimateGuard.Plant;

/// <summary>Decision, calendar and rates as written; null means left out.</summary>
public sealed record PoliciesDraft
{
    /// <summary>k of the guard band.</summary>
    public double? GuardFactor { get; init; }

    /// <summary>Probabilities at which the answer changes.</summary>
    public ProbabilityDraft? Probability { get; init; }

    /// <summary>Values to which the hold threshold may go up by itself.</summary>
    public IReadOnlyList<double?>? HoldGrid { get; init; }

    /// <summary>The shifts.</summary>
    public IReadOnlyList<ShiftDraft?>? Shifts { get; init; }

    /// <summary>The rates.</summary>
    public RatesDraft? Rates { get; init; }

    /// <summary>Limits of the findings, by finding and key.</summary>
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>?>? Findings { get; init; }
}

/// <summary>Probability limits as written, each in (0, 1); null means left out.</summary>
public sealed record ProbabilityDraft
{
    /// <summary>From here a note.</summary>
    public double? Watch { get; init; }

    /// <summary>From here measure first.</summary>
    public double? Measure { get; init; }

    /// <summary>From here hold.</summary>
    public double? Hold { get; init; }

    /// <summary>A hold ends at or below this.</summary>
    public double? ReleaseHold { get; init; }

    /// <summary>A measure first ends at or below this.</summary>
    public double? ReleaseMeasure { get; init; }
}

/// <summary>A shift as written; null means left out.</summary>
public sealed record ShiftDraft
{
    /// <summary>The name.</summary>
    public string? Name { get; init; }

    /// <summary>Begin, local, HH:mm.</summary>
    public string? From { get; init; }

    /// <summary>End, local, HH:mm.</summary>
    public string? To { get; init; }

    /// <summary>Days on which it begins, Mon to Sun.</summary>
    public IReadOnlyList<string?>? Days { get; init; }
}

/// <summary>Rates as written; null means left out.</summary>
public sealed record RatesDraft
{
    /// <summary>Cost of a machine hour.</summary>
    public double? MachinePerHour { get; init; }

    /// <summary>Cost of a scrapped part.</summary>
    public double? ScrapPerPart { get; init; }

    /// <summary>The currency.</summary>
    public string? Currency { get; init; }
}
