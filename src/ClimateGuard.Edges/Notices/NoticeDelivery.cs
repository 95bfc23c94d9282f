using System.Text.Json;
using System.Threading.Channels;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;
using Polly;
using Polly.Timeout;

namespace ClimateGuard.Edges.Notices;

/// <summary>Takes the messages of one channel from the outbox, oldest first, and sends them.</summary>
internal sealed class NoticeDelivery(NoticeChannelParts parts)
{
    private const int MostInARound = 50;
    private static readonly TimeSpan Tick = TimeSpan.FromSeconds(5);

    private readonly ResiliencePipeline attempt = parts.Delivery.Attempt(parts.WallTime);
    private readonly Channel<bool> news = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly Lock gate = new();
    private DateTimeOffset? failingSince;
    private string? lastError;
    private long delivered;

    public long Delivered => Interlocked.Read(ref delivered);

    public (DateTimeOffset? Since, string? Error) Failing
    {
        get
        {
            lock (gate)
            {
                return (failingSince, lastError);
            }
        }
    }

    public void Wake() => news.Writer.TryWrite(true);

    public async Task RunAsync(CancellationToken cancellation)
    {
        while (!cancellation.IsCancellationRequested)
        {
            try
            {
                await RoundAsync(cancellation);
                await NextAsync(cancellation);
            }
            catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
            {
                return;
            }
            catch (Exception failure)
            {
                Fails(failure.Message);
                await Task.Delay(Tick, parts.WallTime, cancellation).ContinueWith(static _ => { }, TaskScheduler.Default);
            }
        }
    }

    /// <summary>Tries each message that is due once; stops at the first that fails for a reason that the next would share.</summary>
    public async Task RoundAsync(CancellationToken cancellation)
    {
        foreach (var item in parts.Outbox.Due(parts.Name, parts.WallTime.GetUtcNow(), MostInARound))
        {
            if (!await TryAsync(item, cancellation))
            {
                return;
            }
        }
    }

    /// <summary>Notes a failure; the first one after a success is a line in the log.</summary>
    public void Fails(string reason)
    {
        bool first;
        lock (gate)
        {
            first = failingSince is null;
            failingSince ??= parts.WallTime.GetUtcNow();
            lastError = reason;
        }

        if (first)
        {
            parts.Logger.LogError(
                "{Channel} does not get through: {Reason} The messages wait in the outbox and are tried for {Age}; nothing else is disturbed.",
                parts.Name, reason, Words.Minutes(parts.Delivery.GiveUpAfter));
        }
    }

    private async Task<bool> TryAsync(OutboxItem item, CancellationToken cancellation)
    {
        try
        {
            var notice = NoticeJson.NoticeFrom(item.Json);
            await attempt.ExecuteAsync(
                static async (state, token) => await state.Send(state.Notice, token), (parts.Send, Notice: notice), cancellation);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            throw;
        }
        catch (Exception failure)
        {
            return NotSent(item, failure);
        }

        parts.Outbox.MarkSent(item.Seq, parts.WallTime.GetUtcNow());
        Interlocked.Increment(ref delivered);
        GetsThrough();
        return true;
    }

    /// <summary>Whether the next message may be tried at once.</summary>
    private bool NotSent(OutboxItem item, Exception failure)
    {
        var now = parts.WallTime.GetUtcNow();
        var reason = failure is TimeoutRejectedException
            ? $"There was no answer within {Words.Minutes(parts.Delivery.TryAtMost)}."
            : failure.Message;
        var forGood = failure is DeliveryFailedException { ForGood: true } or JsonException;
        if (forGood || now - item.Made >= parts.Delivery.GiveUpAfter)
        {
            parts.Outbox.GiveUp(item.Seq, reason, now);
            parts.Logger.LogError(
                "{Channel} gives up message {Key}, written {Made:O}, after {Attempts} attempts: {Reason} It is kept in the outbox.",
                parts.Name, item.Key, item.Made, item.Attempts + 1, reason);
        }
        else
        {
            parts.Outbox.Postpone(item.Seq, reason, now + parts.Delivery.PauseAfter(item.Attempts + 1, parts.Chance.NextDouble()));
        }

        if (!forGood)
        {
            Fails(reason);
        }

        return forGood;
    }

    private void GetsThrough()
    {
        DateTimeOffset? since;
        lock (gate)
        {
            since = failingSince;
            (failingSince, lastError) = (null, null);
        }

        if (since is { } begin)
        {
            parts.Logger.LogInformation("{Channel} gets through again, after {Time}.", parts.Name, Words.Minutes(parts.WallTime.GetUtcNow() - begin));
        }
    }

    private async Task NextAsync(CancellationToken cancellation)
    {
        using var pause = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        await Task.WhenAny(Task.Delay(Tick, parts.WallTime, pause.Token), news.Reader.WaitToReadAsync(pause.Token).AsTask());
        await pause.CancelAsync();
        cancellation.ThrowIfCancellationRequested();
        news.Reader.TryRead(out _);
    }
}
