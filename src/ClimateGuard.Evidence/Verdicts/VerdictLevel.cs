namespace ClimateGuard.Evidence;

/// <summary>The rungs of the ladder from "not assessable" to "confirmed".</summary>
public enum VerdictLevel
{
    /// <summary>Data are missing.</summary>
    NotAssessable = 0,

    /// <summary>Temperature is excluded as main cause.</summary>
    Excluded = 1,

    /// <summary>Possible, not supported by size or pattern.</summary>
    Possible = 2,

    /// <summary>It contributed.</summary>
    Contributed = 3,

    /// <summary>Probably the main cause.</summary>
    ProbablyMainCause = 4,

    /// <summary>Confirmed by independent evidence.</summary>
    Confirmed = 5,
}

/// <summary>The fixed words of each rung; no report says anything else.</summary>
public static class VerdictWords
{
    /// <summary>The wording of a level above 0.</summary>
    /// <param name="level">The level.</param>
    /// <param name="missing">What is missing, for level 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such level.</exception>
    public static string Of(VerdictLevel level, string missing = "") => level switch
    {
        VerdictLevel.NotAssessable => $"Not assessable: data missing ({missing})",
        VerdictLevel.Excluded => "Temperature excluded as main cause",
        VerdictLevel.Possible => "Temperature possible; not supported by size or pattern",
        VerdictLevel.Contributed => "Temperature contributed",
        VerdictLevel.ProbablyMainCause => "Temperature probably the main cause",
        VerdictLevel.Confirmed => "Temperature confirmed",
        _ => throw new ArgumentOutOfRangeException(nameof(level), level, "level must be one of the named ones."),
    };
}

/// <summary>What the evidence says of one feature of one part.</summary>
/// <param name="Level">The rung.</param>
/// <param name="Wording">Its fixed words.</param>
/// <param name="Reasons">Why this rung, in order.</param>
/// <param name="Caps">What kept it from a higher one.</param>
public sealed record Verdict(VerdictLevel Level, string Wording, IReadOnlyList<string> Reasons, IReadOnlyList<string> Caps);
