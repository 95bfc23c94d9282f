namespace ClimateGuard.Watch;

/// <summary>How the coming finish cut stands. Missing data is never ready.</summary>
public enum Level
{
    /// <summary>The cut may start.</summary>
    Ready,

    /// <summary>The cut may start; the margin is small.</summary>
    Watch,

    /// <summary>A quick measurement decides.</summary>
    MeasureFirst,

    /// <summary>Do not start.</summary>
    Hold,

    /// <summary>An input is missing or too old.</summary>
    NotKnown,

    /// <summary>A person has taken the responsibility.</summary>
    Bypassed,

    /// <summary>Nothing is loaded.</summary>
    NoJob,
}

/// <summary>The words of the levels.</summary>
public static class LevelWords
{
    /// <summary>The word for screens and payloads, such as <c>measure first</c>.</summary>
    public static string Word(this Level level) => level switch
    {
        Level.Ready => "ready",
        Level.Watch => "watch",
        Level.MeasureFirst => "measure first",
        Level.Hold => "hold",
        Level.Bypassed => "bypassed",
        Level.NoJob => "no job",
        _ => "not known",
    };
}
