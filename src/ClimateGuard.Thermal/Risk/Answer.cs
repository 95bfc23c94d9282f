namespace ClimateGuard.Thermal;

/// <summary>The answer to the question whether a finish cut may start.</summary>
public enum Answer
{
    /// <summary>It may.</summary>
    Go,

    /// <summary>It may with the offset that was proposed and that a person has set.</summary>
    GoWithOffset,

    /// <summary>A quick measurement decides first.</summary>
    Measure,

    /// <summary>It may not.</summary>
    Hold,

    /// <summary>An input is missing or too old; the local policy of the machine applies.</summary>
    Unknown,

    /// <summary>A person has taken the responsibility.</summary>
    GoOverridden,
}

/// <summary>The words of the answers.</summary>
public static class AnswerWords
{
    /// <summary>The word for payloads, such as <c>GO_WITH_OFFSET</c>.</summary>
    public static string Word(this Answer answer) => answer switch
    {
        Answer.Go => "GO",
        Answer.GoWithOffset => "GO_WITH_OFFSET",
        Answer.Measure => "MEASURE",
        Answer.Hold => "HOLD",
        Answer.GoOverridden => "GO_OVERRIDDEN",
        _ => "UNKNOWN",
    };
}
