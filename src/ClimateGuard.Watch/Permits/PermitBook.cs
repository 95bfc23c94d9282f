using System.Collections.Immutable;

namespace ClimateGuard.Watch;

/// <summary>The permits and answers of one machine that may still matter.</summary>
/// <remarks>Immutable: each change returns a new book. At most one permit holds at any moment.</remarks>
public sealed record PermitBook
{
    /// <summary>How many answers are remembered for the same request coming again.</summary>
    public const int MostAnswers = 200;

    /// <summary>An empty book.</summary>
    public static PermitBook Empty { get; } = new();

    /// <summary>How many permits were ever given; makes ids.</summary>
    public long Given { get; init; }

    /// <summary>The newest permit, or null.</summary>
    public Permit? Newest { get; init; }

    /// <summary>The answers given, oldest first.</summary>
    public ImmutableArray<AnsweredRequest> Answers { get; init; } = [];

    /// <summary>The hold that was answered to a control and still stands, or null.</summary>
    public LatchedHold? Latch { get; init; }

    /// <summary>The same book after the wall clock was set by so much: a permit keeps the time it has left.</summary>
    /// <param name="by">How far the clock was set forward; negative when it was set back.</param>
    public PermitBook AfterClockStep(TimeSpan by) => this with
    {
        Newest = Newest is null ? null : Newest with { IssuedAt = Newest.IssuedAt + by, ValidUntil = Newest.ValidUntil + by },
        Latch = Latch is null ? null : Latch with { Since = Latch.Since + by },
    };

    /// <summary>The answer to a request that came before, or null.</summary>
    /// <param name="requestId">The sender's id.</param>
    public AnsweredRequest? Find(string requestId) => Answers.LastOrDefault(answered => answered.Answer.RequestId == requestId);

    /// <summary>A book with one more answer, and with its permit as the newest; an older permit that still held is superseded by it.</summary>
    /// <param name="answered">The answer with what was asked.</param>
    public PermitBook With(AnsweredRequest answered)
    {
        ArgumentNullException.ThrowIfNull(answered);
        var kept = Answers.Length >= MostAnswers ? Answers.RemoveAt(0) : Answers;
        return this with
        {
            Answers = kept.Add(answered),
            Given = answered.Answer.Permit is null ? Given : Given + 1,
            Newest = answered.Answer.Permit ?? Newest,
        };
    }
}

/// <summary>An answer with the fingerprint of what was asked.</summary>
/// <param name="Fingerprint">Everything in the request but the time it was sent.</param>
/// <param name="Answer">The answer.</param>
public sealed record AnsweredRequest(string Fingerprint, PermitAnswer Answer);

/// <summary>A hold that was answered to a control: it stands for this serial and operation until a request is answered go, a measurement
/// clears it, or a person overrides it.</summary>
/// <param name="Serial">Serial number.</param>
/// <param name="Operation">Operation.</param>
/// <param name="Since">Since when.</param>
public sealed record LatchedHold(string Serial, string Operation, DateTimeOffset Since);
