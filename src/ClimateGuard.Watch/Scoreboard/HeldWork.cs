namespace ClimateGuard.Watch;

/// <summary>One hold as the ledger tells it.</summary>
/// <remarks>Immutable; a hold that goes on becomes the next value.</remarks>
public sealed record HeldWork
{
    /// <summary>What was held.</summary>
    public required WorkOnMachine Work { get; init; }

    /// <summary>When it began to be shown.</summary>
    public required DateTimeOffset Begin { get; init; }

    /// <summary>When it ended, or null while it stands.</summary>
    public DateTimeOffset? End { get; init; }

    /// <summary>When a control first asked for this work and was told to hold, or null when none did.</summary>
    public DateTimeOffset? AskedAt { get; init; }

    /// <summary>Nothing was sent to the machine: it would have been held.</summary>
    public required bool Shadow { get; init; }

    /// <summary>A person took the responsibility and ended it.</summary>
    public bool Overridden { get; init; }

    /// <summary>The prediction with the highest probability while it stood, or null.</summary>
    public FrozenPrediction? Prediction { get; init; }

    /// <summary>The measurement that counts: the first that decides, else the first; null when nobody measured.</summary>
    public HoldScore? Score { get; init; }

    /// <summary>When that measurement was taken.</summary>
    public DateTimeOffset? ScoredAt { get; init; }

    /// <summary>Whether a measurement decided it.</summary>
    public bool Decided => Score is { Verdict: not HoldVerdict.Undecided };

    /// <summary>How long it stood, up to a moment.</summary>
    /// <param name="now">The moment, for a hold that stands.</param>
    public TimeSpan Stood(DateTimeOffset now) => Positive((End ?? now) - Begin);

    /// <summary>How long a control that had asked was kept from cutting, up to a moment.</summary>
    /// <param name="now">The moment, for a hold that stands.</param>
    public TimeSpan KeptWaiting(DateTimeOffset now) => AskedAt is { } asked ? Positive((End ?? now) - asked) : TimeSpan.Zero;

    internal HeldWork With(FrozenPrediction? prediction) =>
        prediction is not null && prediction.Probability > (Prediction?.Probability ?? -1) ? this with { Prediction = prediction } : this;

    internal HeldWork With(HoldScore score, DateTimeOffset at) => Score is null || (!Decided && score.Verdict != HoldVerdict.Undecided)
        ? this with { Score = score, ScoredAt = at }
        : this;

    private static TimeSpan Positive(TimeSpan span) => span > TimeSpan.Zero ? span : TimeSpan.Zero;
}
