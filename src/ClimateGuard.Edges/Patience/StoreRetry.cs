using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;
using Polly;
using Polly.Retry;

namespace ClimateGuard.Edges.Patience;

/// <summary>How a store that failed is tried again: for ever, with pauses that grow from 0.5 s to 30 s, each failure in the log.</summary>
public static class StoreRetry
{
    /// <summary>The pipeline.</summary>
    /// <param name="what">What is tried, for the log, such as <c>readings</c>.</param>
    /// <param name="logger">The log.</param>
    /// <param name="time">The clock.</param>
    public static ResiliencePipeline Create(string what, ILogger logger, TimeProvider time) => new ResiliencePipelineBuilder { TimeProvider = time }
        .AddRetry(new RetryStrategyOptions
        {
            ShouldHandle = new PredicateBuilder().Handle<Exception>(
                failure => failure is not (OperationCanceledException or ArgumentException or LeaseLostException)),
            MaxRetryAttempts = int.MaxValue,
            BackoffType = DelayBackoffType.Exponential,
            Delay = TimeSpan.FromSeconds(0.5),
            MaxDelay = TimeSpan.FromSeconds(30),
            OnRetry = attempt =>
            {
                logger.LogError(
                    "The {What} could not be written (attempt {Attempt}): {Reason} Nothing is lost: what is not acknowledged stays with the broker. Next try in {Pause}.",
                    what, attempt.AttemptNumber + 1, attempt.Outcome.Exception?.Message, attempt.RetryDelay);
                return ValueTask.CompletedTask;
            },
        })
        .Build();
}
