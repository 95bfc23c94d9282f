using System.Globalization;

namespace ClimateGuard.Watch;

/// <summary>What a check of the chain found.</summary>
/// <param name="Lines">How many lines were read.</param>
/// <param name="From">The earliest time on a line, or null when there is none.</param>
/// <param name="To">The latest time on a line, or null when there is none.</param>
/// <param name="Head">The newest line that is sound, or null.</param>
/// <param name="Break">The first break, or null when the chain is whole.</param>
public sealed record LedgerVerdict(long Lines, DateTimeOffset? From, DateTimeOffset? To, LedgerHead? Head, LedgerBreak? Break);

/// <summary>The first line at which a chain is broken.</summary>
/// <param name="Seq">Its number.</param>
/// <param name="Time">The time on the line that stands there, or null when none does.</param>
/// <param name="Fault">What is wrong.</param>
/// <param name="Because">The same in a sentence for people.</param>
public sealed record LedgerBreak(long Seq, DateTimeOffset? Time, LedgerFault Fault, string Because)
{
    /// <summary>The break in one sentence.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"line {Seq}{(Time is { } time ? $" of {LedgerChain.TimeText(time)}" : "")}: {Because}");
}

/// <summary>What can be wrong with a chain.</summary>
public enum LedgerFault
{
    /// <summary>A line does not say what it said when it was written.</summary>
    Changed,

    /// <summary>A line is not there.</summary>
    Missing,

    /// <summary>A line stands at the place of another.</summary>
    Reordered,

    /// <summary>From a line on nothing fits upon what stands before it, or not upon the head that was noted.</summary>
    ForgedTail,
}
