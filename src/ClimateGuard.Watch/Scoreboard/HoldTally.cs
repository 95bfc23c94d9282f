using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Holds counted: how they turned out, and what they took.</summary>
public sealed record HoldTally
{
    /// <summary>Fewer decided holds than this are too few to say how often a hold is right (common practice, no source).</summary>
    public const int FewestToSay = 5;

    /// <summary>How many.</summary>
    public required int Holds { get; init; }

    /// <summary>How many stand still.</summary>
    public required int Standing { get; init; }

    /// <summary>A measurement showed that the hold was right.</summary>
    public required int Confirmed { get; init; }

    /// <summary>A measurement showed that it was not.</summary>
    public required int Refuted { get; init; }

    /// <summary>A measurement was taken and lies between.</summary>
    public required int Undecided { get; init; }

    /// <summary>Nobody measured.</summary>
    public required int NotMeasured { get; init; }

    /// <summary>Ended by a person who took the responsibility.</summary>
    public required int Overridden { get; init; }

    /// <summary>Minutes lost: at least those in which a control that had asked was kept waiting, at most those in which a hold stood.</summary>
    public required Interval MinutesLost { get; init; }

    /// <summary>Of them those of refuted holds.</summary>
    public required Interval MinutesOfRefuted { get; init; }

    /// <summary>What the minutes cost at the shop's machine rates, or null without rates.</summary>
    public required MoneyRange? Cost { get; init; }

    /// <summary>What the confirmed holds may have spared: from nothing, as not each part would have been scrap, to a part each; null without rates.</summary>
    public required MoneyRange? Spared { get; init; }

    /// <summary>Confirmed and refuted together.</summary>
    public int Decided => Confirmed + Refuted;

    /// <summary>Share of the decided holds that were right, or null when they are fewer than <see cref="FewestToSay"/>.</summary>
    public double? ConfirmedShare => Decided < FewestToSay ? null : (double)Confirmed / Decided;

    /// <summary>Where the true share lies with 95 % confidence (Wilson), or null when the holds are too few.</summary>
    public Interval? ConfirmedBetween => Decided < FewestToSay ? null : ProportionInterval.Wilson(Confirmed, Decided);

    internal static HoldTally Of(IEnumerable<HeldWork> some, Cell cell, DateTimeOffset now)
    {
        HeldWork[] holds = [.. some];
        var rates = cell.Description.Policies.Rates;
        var confirmed = Count(holds, HoldVerdict.Confirmed);
        return new HoldTally
        {
            Holds = holds.Length,
            Standing = holds.Count(hold => hold.End is null),
            Confirmed = confirmed,
            Refuted = Count(holds, HoldVerdict.Refuted),
            Undecided = Count(holds, HoldVerdict.Undecided),
            NotMeasured = holds.Count(hold => hold.Score is null),
            Overridden = holds.Count(hold => hold.Overridden),
            MinutesLost = Minutes(holds, now),
            MinutesOfRefuted = Minutes(holds.Where(hold => hold.Score?.Verdict == HoldVerdict.Refuted), now),
            Cost = rates is null ? null : MoneyRange.OfWaiting(holds, cell, rates, now),
            Spared = rates is null ? null : new MoneyRange(0, confirmed * rates.ScrapPerPart, rates.Currency),
        };
    }

    private static int Count(HeldWork[] holds, HoldVerdict verdict) => holds.Count(hold => hold.Score?.Verdict == verdict);

    private static Interval Minutes(IEnumerable<HeldWork> some, DateTimeOffset now)
    {
        HeldWork[] holds = [.. some];
        return new Interval(holds.Sum(hold => hold.KeptWaiting(now).TotalMinutes), holds.Sum(hold => hold.Stood(now).TotalMinutes));
    }
}

/// <summary>An amount of money of which only the ends are known.</summary>
/// <param name="Low">At least.</param>
/// <param name="High">At most.</param>
/// <param name="Currency">The currency of the shop's rates.</param>
public sealed record MoneyRange(double Low, double High, string Currency)
{
    internal static MoneyRange OfWaiting(IReadOnlyList<HeldWork> holds, Cell cell, Rates rates, DateTimeOffset now) => new(
        holds.Sum(hold => hold.KeptWaiting(now).TotalHours * PerHour(hold, cell, rates)),
        holds.Sum(hold => hold.Stood(now).TotalHours * PerHour(hold, cell, rates)),
        rates.Currency);

    private static double PerHour(HeldWork hold, Cell cell, Rates rates) => cell.FindMachine(hold.Work.Machine)?.RatePerHour ?? rates.MachinePerHour;
}
