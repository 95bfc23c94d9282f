using ClimateGuard.Edges.Json;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Polly;
using Polly.Retry;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>The connection to the broker: made, watched, made again, for ever. Readings and outlooks share it.</summary>
/// <remarks>
/// After a failure it tries again with jittered, exponentially growing pauses of 0.2 s to 30 s. A connection that ends within 30 s
/// counts as a failure too, so that two workers with one client id do not throw each other out many times a second.
/// Create <see cref="MqttReadings"/> and <see cref="MqttOutlooks"/> on it, then start it.
/// </remarks>
public sealed class BrokerLink : IHostedService, IAsyncDisposable
{
    private static readonly TimeSpan ShortLife = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Farewell = TimeSpan.FromSeconds(2);

    private readonly BrokerSettings settings;
    private readonly TimeProvider time;
    private readonly ILogger<BrokerLink> logger;
    private readonly LogPace failures;
    private readonly List<Func<BrokerConnection, Task>> whileConnected = [];
    private Func<BrokerMessage, Task> receive = static _ => Task.CompletedTask;
    private volatile BrokerState state;
    private volatile WorkerIdentity identity;
    private BrokerConnection? current;
    private CancellationTokenSource stopping = new();
    private volatile bool goodbye = true;
    private Func<bool> mayConnect = static () => true;
    private Task running = Task.CompletedTask;

    /// <summary>A link that is not started yet.</summary>
    /// <param name="settings">The settings, checked with <see cref="BrokerSettings.Problems"/>.</param>
    /// <param name="topics">The topics of the cell.</param>
    /// <param name="identity">Who we are, for the status topic.</param>
    /// <param name="time">The clock.</param>
    /// <param name="logger">The log.</param>
    public BrokerLink(BrokerSettings settings, Topics topics, WorkerIdentity identity, TimeProvider time, ILogger<BrokerLink> logger)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(topics);
        ArgumentNullException.ThrowIfNull(identity);
        ArgumentNullException.ThrowIfNull(time);
        this.settings = settings;
        this.identity = identity;
        this.time = time;
        this.logger = logger;
        Topics = topics;
        failures = new LogPace(time);
        state = new BrokerState(false, time.GetUtcNow(), settings.Host, settings.Port, null);
    }

    /// <summary>Raised, on any thread, after each change of <see cref="State"/>.</summary>
    public event Action<BrokerState>? StateChanged;

    /// <summary>How the connection stands. Connected means subscribed.</summary>
    public BrokerState State => state;

    /// <summary>The topics of the cell.</summary>
    public Topics Topics { get; }

    /// <summary>What is subscribed to with each connection.</summary>
    internal Subscriptions Subscriptions { get; } = new();

    /// <summary>Begins to connect in the background; a missing broker is no error of the start.</summary>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        if (stopping.IsCancellationRequested)
        {
            stopping.Dispose();
            stopping = new CancellationTokenSource();
        }

        goodbye = true;
        running = Task.Run(RunAsync, CancellationToken.None);
        return Task.CompletedTask;
    }

    /// <summary>Tells that the worker goes offline and disconnects.</summary>
    public async Task StopAsync(CancellationToken cancellationToken)
    {
        await stopping.CancelAsync();
        await running.WaitAsync(cancellationToken);
    }

    /// <summary>Asks before each connection; before the start only. Connecting throws whoever has our client id off the broker.</summary>
    /// <param name="allowed">Whether the client id, the status topic and the machines' topics are ours now.</param>
    public void OnlyWhile(Func<bool> allowed) => mayConnect = allowed;

    /// <summary>Disconnects without a word on the status topic, which belongs to another worker now. May be started again.</summary>
    public async Task AbandonAsync()
    {
        goodbye = false;
        await StopAsync(CancellationToken.None);
    }

    /// <summary>Tells on the status topic that another plant file is in force; when not connected, with the next connection.</summary>
    public async Task AnnounceAsync(WorkerIdentity now, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(now);
        identity = now;
        if (Volatile.Read(ref current) is { } connection && state.Connected)
        {
            await TellStatusAsync(connection, online: true, state.Since, cancellation);
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await StopAsync(CancellationToken.None);
        stopping.Dispose();
    }

    /// <summary>Takes messages; before the start only.</summary>
    internal void Receive(IReadOnlyList<string> subscriptions, Func<BrokerMessage, Task> handler)
    {
        Subscriptions.Want(subscriptions);
        receive = handler;
    }

    /// <summary>Runs during each connection, and ends by <see cref="BrokerConnection.Ended"/>; before the start only.</summary>
    internal void WhileConnected(Func<BrokerConnection, Task> work) => whileConnected.Add(work);

    private async Task RunAsync()
    {
        var pipeline = new ResiliencePipelineBuilder { TimeProvider = time }
            .AddRetry(new RetryStrategyOptions
            {
                MaxRetryAttempts = int.MaxValue,
                BackoffType = DelayBackoffType.Exponential,
                UseJitter = true,
                Delay = TimeSpan.FromSeconds(0.2),
                MaxDelay = TimeSpan.FromSeconds(30),
                ShouldHandle = retry => ValueTask.FromResult(
                    retry.Outcome.Exception is not null && !stopping.IsCancellationRequested),
                OnRetry = retry =>
                {
                    Report(retry.Outcome.Exception!);
                    return ValueTask.CompletedTask;
                },
            })
            .Build();
        while (!stopping.IsCancellationRequested)
        {
            try
            {
                await pipeline.ExecuteAsync(async cancellation => await ConnectAndStayAsync(cancellation), stopping.Token);
            }
            catch (Exception last) when (stopping.IsCancellationRequested)
            {
                logger.LogDebug(last, "The link to the broker is stopped");
            }
        }
    }

    private async Task ConnectAndStayAsync(CancellationToken cancellation)
    {
        if (!mayConnect())
        {
            throw new BrokerRefusedException("another worker speaks for this cell now");
        }

        using var connection = new BrokerConnection(receive, logger, settings.ToPeopleOnly ? Topics.ToPeople : null);
        string? refusedCertificate = null;
        var clientId = settings.ClientIdFor(Topics.Cell);
        var will = WorkerStatusJson.ToUtf8(online: false, identity.Version, identity.ConfigVersion, since: null);
        var options = BrokerOptions.Build(
            settings, clientId, Topics.WorkerStatus, will, time, reason => refusedCertificate = reason);
        bool sessionPresent;
        try
        {
            sessionPresent = await connection.OpenAsync(options, Subscriptions.Wanted, cancellation);
        }
        catch (Exception) when (refusedCertificate is not null)
        {
            throw new BrokerRefusedException(refusedCertificate);
        }

        var begin = time.GetTimestamp();
        await TryTellOnlineAsync(connection, cancellation);
        Volatile.Write(ref current, connection);
        Become(new BrokerState(true, time.GetUtcNow(), settings.Host, settings.Port, state.LastError));
        logger.LogInformation(
            "Connected to the broker at {Host}:{Port} as {ClientId}; {Session}",
            settings.Host, settings.Port, clientId, sessionPresent ? "the broker kept our session" : "a new session");
        await StayAsync(connection, clientId, begin, cancellation);
    }

    private async Task StayAsync(BrokerConnection connection, string clientId, long begin, CancellationToken cancellation)
    {
        Task[] works = [.. whileConnected.Select(work => Task.Run(() => work(connection), CancellationToken.None))];
        try
        {
            var how = await connection.WaitForEndAsync(cancellation);
            var reason = BrokerFailure.Explain(how, clientId);
            Become(new BrokerState(false, time.GetUtcNow(), settings.Host, settings.Port, reason));
            if (time.GetElapsedTime(begin) < ShortLife)
            {
                throw new BrokerRefusedException(reason);
            }

            Report(new BrokerRefusedException(reason));
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            await LeaveAsync(connection);
        }
        finally
        {
            Volatile.Write(ref current, null);
            connection.Dispose();
            await Task.WhenAll(works);
        }
    }

    private async Task LeaveAsync(BrokerConnection connection)
    {
        using var patience = new CancellationTokenSource(Farewell, time);
        try
        {
            if (goodbye)
            {
                await TellStatusAsync(connection, online: false, time.GetUtcNow(), patience.Token);
            }

            await connection.CloseAsync(patience.Token);
        }
        catch (Exception failed) when (failed is not OutOfMemoryException)
        {
            // Without a goodbye the broker publishes the last will, which says the same.
            logger.LogDebug(failed, "The broker did not take the goodbye");
        }

        Become(new BrokerState(false, time.GetUtcNow(), settings.Host, settings.Port, null));
    }

    private async Task TryTellOnlineAsync(BrokerConnection connection, CancellationToken cancellation)
    {
        try
        {
            await TellStatusAsync(connection, online: true, time.GetUtcNow(), cancellation);
        }
        catch (BrokerRefusedException refused)
        {
            // Readings matter more than our own status: an access list that forgot this topic must not keep us away.
            logger.LogWarning("{Reason}", refused.Message);
        }
    }

    private Task TellStatusAsync(BrokerConnection connection, bool online, DateTimeOffset since, CancellationToken cancellation) =>
        connection.PublishAsync(
            Topics.WorkerStatus,
            WorkerStatusJson.ToUtf8(online, identity.Version, identity.ConfigVersion, since),
            retain: true,
            cancellation);

    private void Report(Exception failure)
    {
        var reason = BrokerFailure.Explain(failure);
        if (state.LastError != reason || state.Connected)
        {
            Become(state with { Connected = false, LastError = reason });
        }

        if (failures.MayWrite(out var more))
        {
            logger.LogWarning(
                "No connection to the broker at {Host}:{Port}: {Reason}. Trying again until it works{More}",
                settings.Host, settings.Port, reason, more > 0 ? $" ({more} attempts since the last line)" : "");
        }
    }

    private void Become(BrokerState next)
    {
        state = next;
        StateChanged?.Invoke(next);
    }
}
