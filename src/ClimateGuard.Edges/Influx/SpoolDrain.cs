using Microsoft.Extensions.Logging;
using Polly;
using Polly.Retry;

namespace ClimateGuard.Edges.Influx;

/// <summary>Brings what waits in the spool into InfluxDB, in order, as often as it takes.</summary>
internal sealed class SpoolDrain : IAsyncDisposable
{
    private readonly Spool spool;
    private readonly Func<List<KeptReading>, List<KeptMessage>, CancellationToken, Task> write;
    private readonly ILogger log;
    private readonly SemaphoreSlim something = new(0, 1);
    private readonly CancellationTokenSource ending = new();
    private readonly ResiliencePipeline retry;
    private readonly Task run;
    private readonly List<KeptReading> readings = [];
    private readonly List<KeptMessage> messages = [];

    /// <param name="spool">What to drain.</param>
    /// <param name="write">Brings a batch in, or throws.</param>
    /// <param name="log">Told of each failure and of the end.</param>
    public SpoolDrain(Spool spool, Func<List<KeptReading>, List<KeptMessage>, CancellationToken, Task> write, ILogger log)
    {
        (this.spool, this.write, this.log) = (spool, write, log);
        retry = new ResiliencePipelineBuilder().AddRetry(new RetryStrategyOptions
        {
            ShouldHandle = new PredicateBuilder().Handle<Exception>(failure => failure is not OperationCanceledException),
            MaxRetryAttempts = int.MaxValue,
            BackoffType = DelayBackoffType.Exponential,
            Delay = TimeSpan.FromSeconds(0.5),
            MaxDelay = TimeSpan.FromSeconds(30),
            DelayGenerator = Asked,
            OnRetry = Tell,
        }).Build();
        run = Task.Run(RunAsync);
        if (!spool.IsEmpty)
        {
            log.LogInformation("{Batches} batches of an earlier run wait for InfluxDB and go first.", spool.State.Batches);
            Wake();
        }
    }

    /// <summary>Something was spooled.</summary>
    public void Wake()
    {
        lock (something)
        {
            if (something.CurrentCount == 0)
            {
                something.Release();
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        await ending.CancelAsync();
        await run.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        ending.Dispose();
        something.Dispose();
    }

    private async Task RunAsync()
    {
        while (true)
        {
            await something.WaitAsync(ending.Token);
            var batches = 0L;
            while (await retry.ExecuteAsync(NextAsync, ending.Token) is > 0 and var done)
            {
                batches += done;
            }

            log.LogInformation("InfluxDB has taken everything that waited on disk ({Batches} batches).", batches);
        }
    }

    private async ValueTask<int> NextAsync(CancellationToken cancellation)
    {
        if (spool.Take() is not { } take)
        {
            return 0;
        }

        readings.Clear();
        messages.Clear();
        foreach (var payload in take.Payloads)
        {
            SpoolPayload.Read(payload, readings, messages);
        }

        await write(readings, messages, cancellation);
        spool.Done(take);
        return take.Payloads.Count;
    }

    // Null: the usual pause.
    private static ValueTask<TimeSpan?> Asked(RetryDelayGeneratorArguments<object> attempt)
    {
        var asked = (attempt.Outcome.Exception as InfluxFaultException)?.RetryAfter;
        return ValueTask.FromResult(asked > TimeSpan.FromMinutes(5) ? TimeSpan.FromMinutes(5) : asked);
    }

    private ValueTask Tell(OnRetryArguments<object> attempt)
    {
        var state = spool.State;
        log.LogError(
            "What waits for InfluxDB could not be brought in (attempt {Attempt}): {Reason} Nothing is lost: {Batches} batches ({Bytes} bytes) wait on disk and go in order. Next try in {Pause}.",
            attempt.AttemptNumber + 1, attempt.Outcome.Exception?.Message, state.Batches, state.Bytes, attempt.RetryDelay);
        return ValueTask.CompletedTask;
    }
}
