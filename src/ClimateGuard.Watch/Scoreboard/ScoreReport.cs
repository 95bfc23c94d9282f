using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How right the holds were, what they cost and what they missed, over a span of time.</summary>
public sealed record ScoreReport
{
    /// <summary>Begin of the span, inclusive.</summary>
    public required DateTimeOffset From { get; init; }

    /// <summary>End of the span, exclusive; holds that stand are counted up to here.</summary>
    public required DateTimeOffset To { get; init; }

    /// <summary>The holds that machines were told.</summary>
    public required HoldTally Held { get; init; }

    /// <summary>The holds that only a shadow kept: machines would have been held.</summary>
    public required HoldTally WouldHaveHeld { get; init; }

    /// <summary>The holds that began in the span, newest first.</summary>
    public required IReadOnlyList<HeldWork> Holds { get; init; }

    /// <summary>What the inspection says about cuts that were not held.</summary>
    public required InspectionTally Inspection { get; init; }

    /// <summary>Precision and recall over thresholds, from the cases whose outcome is known.</summary>
    public required IReadOnlyList<ThresholdScore> Thresholds { get; init; }

    /// <summary>How many cases with a known outcome stand behind <see cref="Thresholds"/>.</summary>
    public required int Cases { get; init; }

    /// <summary>Works a report out.</summary>
    /// <param name="history">The history.</param>
    /// <param name="cell">The cell, with its rates.</param>
    /// <param name="from">Begin of the span, inclusive.</param>
    /// <param name="to">End of the span, exclusive.</param>
    public static ScoreReport Of(HoldHistory history, Cell cell, DateTimeOffset from, DateTimeOffset to)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(cell);
        HeldWork[] holds = [.. history.Holds.Where(hold => hold.Begin >= from && hold.Begin < to).OrderByDescending(hold => hold.Begin)];
        var inspection = InspectionTally.Of(history, cell, from, to);
        OutcomeCase[] cases = [.. OutcomeCase.Of(holds), .. inspection.Cases];
        return new ScoreReport
        {
            From = from,
            To = to,
            Held = HoldTally.Of(holds.Where(hold => !hold.Shadow), cell, to),
            WouldHaveHeld = HoldTally.Of(holds.Where(hold => hold.Shadow), cell, to),
            Holds = holds,
            Inspection = inspection,
            Thresholds = ThresholdScore.Over(cases),
            Cases = cases.Length,
        };
    }
}
