using Polly;
using Polly.Retry;
using Polly.Timeout;

namespace ClimateGuard.Edges.Notices;

/// <summary>How often and for how long a message is tried.</summary>
/// <remarks>
/// Two ranges. Within one attempt Polly bridges a short hiccup: a time limit, and two more tries after about 1 s and 2 s. Between attempts
/// the pause doubles from 15 s to 15 min, each with jitter of ±25 %, and is kept in the outbox, so that it outlives a restart and a dead
/// server is not hammered by a worker that is started again and again.
/// </remarks>
public sealed record DeliveryRules
{
    /// <summary>The age at which a message is given up, in [1 min, 30 d].</summary>
    public TimeSpan GiveUpAfter { get; init; } = TimeSpan.FromHours(24);

    /// <summary>How long one try may take.</summary>
    public TimeSpan TryAtMost { get; init; } = TimeSpan.FromSeconds(20);

    /// <summary>Tries within one attempt beyond the first.</summary>
    public int QuickRetries { get; init; } = 2;

    /// <summary>Pause before the first of them; it doubles, with jitter.</summary>
    public TimeSpan QuickPause { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Pause after the first attempt that failed.</summary>
    public TimeSpan FirstPause { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>The longest pause.</summary>
    public TimeSpan LongestPause { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>The pause after so many attempts that failed.</summary>
    /// <param name="attempts">1 or more.</param>
    /// <param name="chance">In [0, 1).</param>
    public TimeSpan PauseAfter(int attempts, double chance)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(attempts, 1);
        var doubled = FirstPause * Math.Pow(2, Math.Min(attempts - 1, 20));
        return (doubled < LongestPause ? doubled : LongestPause) * (0.75 + (0.5 * chance));
    }

    internal ResiliencePipeline Attempt(TimeProvider time)
    {
        var builder = new ResiliencePipelineBuilder { TimeProvider = time };
        if (QuickRetries > 0)
        {
            builder.AddRetry(new RetryStrategyOptions
            {
                ShouldHandle = new PredicateBuilder().Handle<Exception>(failure =>
                    failure is not OperationCanceledException and not DeliveryFailedException { ForGood: true }),
                MaxRetryAttempts = QuickRetries,
                BackoffType = DelayBackoffType.Exponential,
                Delay = QuickPause,
                UseJitter = true,
            });
        }

        return builder.AddTimeout(new TimeoutStrategyOptions { Timeout = TryAtMost }).Build();
    }
}
