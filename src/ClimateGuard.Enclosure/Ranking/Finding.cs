namespace ClimateGuard.Enclosure;

/// <summary>One cause with how sure it is, from when, why, what to check first and what would have to be known.</summary>
public sealed record Finding
{
    /// <summary>What the rule said.</summary>
    public required Assessment Assessment { get; init; }

    /// <summary>How likely the cause is present, from 0 to 1; at 0.5 and above it is told.</summary>
    public required double Probability { get; init; }

    /// <summary>Log odds, prior and evidence together.</summary>
    public required double LogOdds { get; init; }

    /// <summary>When it began to show, or null.</summary>
    public DateTimeOffset? Onset { get; init; }

    /// <summary>What moved first, in order of time; empty for a mere candidate.</summary>
    public IReadOnlyList<SignalOnset> MovedFirst { get; init; } = [];

    /// <summary>The local day it was judged on, or null for the whole time.</summary>
    public DateOnly? Day { get; init; }

    /// <summary>On how many days it reached even odds; 1 for a single day.</summary>
    public int Days { get; init; } = 1;

    /// <summary>Whether it is told as a cause and not only as a candidate.</summary>
    public bool Flagged => Probability >= 0.5;
}
