namespace ClimateGuard.Plant;

/// <summary>What decides between go, measure and hold, and the shop's calendar and rates.</summary>
public sealed record Policies
{
    /// <summary>k of the guard band |effect| + k·u ≤ budget that governs release; 1.645 leaves at most 5 % risk (ISO 14253-1).</summary>
    public double GuardFactor { get; init; } = 1.645;

    /// <summary>Probabilities at which the answer changes.</summary>
    public ProbabilityLimits Probability { get; init; } = new();

    /// <summary>
    /// The values, ascending, to which the hold threshold goes up by itself when too few holds are confirmed by a measurement; empty: it never moves.
    /// </summary>
    public IReadOnlyList<double> HoldGrid { get; init; } = [0.3, 0.4, 0.5, 0.6];

    /// <summary>The shifts, in local time.</summary>
    public IReadOnlyList<Shift> Shifts { get; init; } = [];

    /// <summary>The shop's rates, or null when not stated.</summary>
    public Rates? Rates { get; init; }

    /// <summary>Limits of the findings that this site has changed: finding (F01 to F34), then key, then value.</summary>
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>> Findings { get; init; } =
        new Dictionary<string, IReadOnlyDictionary<string, double>>();
}

/// <summary>Probabilities, over the whole cut, at which the answer changes; each in (0, 1).</summary>
public sealed record ProbabilityLimits
{
    /// <summary>From here a note is added to the go.</summary>
    public double Watch { get; init; } = 0.02;

    /// <summary>From here: measure first.</summary>
    public double Measure { get; init; } = 0.10;

    /// <summary>From here: hold.</summary>
    public double Hold { get; init; } = 0.30;

    /// <summary>A hold ends at or below this.</summary>
    public double ReleaseHold { get; init; } = 0.10;

    /// <summary>A measure first ends at or below this.</summary>
    public double ReleaseMeasure { get; init; } = 0.04;
}

/// <summary>A shift in local time; one that ends at or before its begin ends on the next day.</summary>
/// <param name="Name">The name people use.</param>
/// <param name="From">Begin, local.</param>
/// <param name="To">End, local.</param>
/// <param name="Days">The days on which it begins.</param>
public sealed record Shift(string Name, TimeOnly From, TimeOnly To, IReadOnlyList<DayOfWeek> Days);

/// <summary>The shop's own rates.</summary>
/// <param name="MachinePerHour">Cost of a machine hour.</param>
/// <param name="ScrapPerPart">Cost of a scrapped part.</param>
/// <param name="Currency">The currency, such as EUR.</param>
public sealed record Rates(double MachinePerHour, double ScrapPerPart, string Currency);
