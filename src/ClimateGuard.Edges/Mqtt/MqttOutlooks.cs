using System.Threading.Channels;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Tells outlooks (retained), alerts and findings (not retained) over the broker.</summary>
/// <remarks>
/// Telling only notes what is newest and returns; a task of the connection publishes. So a slow broker never holds up the loop, and an
/// old outlook never overwrites a newer one. While there is no connection the newest outlook of each machine and the newest state of
/// each alert are kept, at most 256 alerts; with each connection all newest outlooks are told again, as the broker may have lost them.
/// </remarks>
public sealed class MqttOutlooks : IAlertChannel
{
    private const int MostAlerts = 256;
    private const int MostFindings = 256;

    private readonly Topics topics;
    private readonly ILogger<MqttOutlooks> logger;
    private readonly LogPace pace;
    private readonly Lock gate = new();
    private readonly Dictionary<string, Outlook> newest = new(StringComparer.Ordinal);
    private readonly HashSet<string> untold = new(StringComparer.Ordinal);
    private readonly List<AlertRaised> alerts = [];
    private readonly List<FindingTold> findings = [];
    private readonly Channel<bool> news = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    /// <summary>Attaches to a link that is not started yet.</summary>
    public MqttOutlooks(BrokerLink link, TimeProvider time, ILogger<MqttOutlooks> logger)
    {
        ArgumentNullException.ThrowIfNull(link);
        topics = link.Topics;
        this.logger = logger;
        pace = new LogPace(time);
        link.WhileConnected(TellWhileConnectedAsync);
    }

    /// <inheritdoc/>
    public string Name => "MQTT";

    /// <inheritdoc/>
    public ValueTask TellAsync(IReadOnlyList<Decision> decisions, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(decisions);
        var any = false;
        lock (gate)
        {
            foreach (var decision in decisions)
            {
                switch (decision)
                {
                    case OutlookIssued { Outlook: var outlook }:
                        Note(outlook);
                        any = true;
                        break;
                    case AlertRaised alert:
                        Note(alert);
                        any = true;
                        break;
                    case FindingTold told:
                        Note(told);
                        any = true;
                        break;
                }
            }
        }

        if (any)
        {
            news.Writer.TryWrite(true);
        }

        return ValueTask.CompletedTask;
    }

    private void Note(Outlook outlook)
    {
        newest[outlook.Machine] = outlook;
        untold.Add(outlook.Machine);
    }

    // The newest of each finding says all; the ledger has those that make room.
    private void Note(FindingTold told)
    {
        findings.RemoveAll(known => known.Finding.Id == told.Finding.Id);
        findings.Add(told);
        if (findings.Count > MostFindings) findings.RemoveAt(0);
    }

    private void Note(AlertRaised alert)
    {
        alerts.RemoveAll(known => known.Alert.Id == alert.Alert.Id);
        alerts.Add(alert);
        if (alerts.Count <= MostAlerts)
        {
            return;
        }

        alerts.RemoveAt(0);
        if (pace.MayWrite(out _))
        {
            logger.LogWarning("More than {Most} alerts wait for the broker; the oldest are not told over MQTT (the ledger has them)", MostAlerts);
        }
    }

    private async Task TellWhileConnectedAsync(BrokerConnection connection)
    {
        lock (gate)
        {
            untold.UnionWith(newest.Keys);
        }

        try
        {
            while (!connection.Ended.IsCancellationRequested)
            {
                await TellAllAsync(connection);
                await news.Reader.ReadAsync(connection.Ended);
            }
        }
        catch (Exception ended) when (connection.Ended.IsCancellationRequested)
        {
            logger.LogDebug(ended, "Outlooks wait for the next connection");
        }
    }

    private async Task TellAllAsync(BrokerConnection connection)
    {
        foreach (var outlook in TakeUntold())
        {
            if (!await TryPublishAsync(connection, topics.Outlook(outlook.Machine), OutlookJson.ToUtf8(outlook), retain: true))
            {
                // Not lost: the newest of this machine is told with the next news or the next connection.
                lock (gate)
                {
                    untold.Add(outlook.Machine);
                }
            }
        }

        await TellInTurnAsync(connection, alerts, topics.Alert, AlertJson.ToUtf8);
        await TellInTurnAsync(connection, findings, topics.Finding, FindingJson.ToUtf8);
    }

    private async Task TellInTurnAsync<T>(BrokerConnection connection, List<T> waiting, string topic, Func<T, byte[]> payload)
        where T : class
    {
        while (Next(waiting) is { } one && await TryPublishAsync(connection, topic, payload(one), retain: false))
        {
            lock (gate)
            {
                waiting.Remove(one);
            }
        }
    }

    private Outlook[] TakeUntold()
    {
        lock (gate)
        {
            Outlook[] taken = [.. untold.Select(machine => newest[machine])];
            untold.Clear();
            return taken;
        }
    }

    private T? Next<T>(List<T> waiting)
        where T : class
    {
        lock (gate)
        {
            return waiting.FirstOrDefault();
        }
    }

    private async Task<bool> TryPublishAsync(BrokerConnection connection, string topic, byte[] payload, bool retain)
    {
        try
        {
            await connection.PublishAsync(topic, payload, retain, connection.Ended);
            return true;
        }
        catch (Exception failed) when (failed is not OutOfMemoryException)
        {
            if (!connection.Ended.IsCancellationRequested && pace.MayWrite(out var more))
            {
                logger.LogWarning(
                    "{Topic} was not published: {Reason}{More}",
                    topic, BrokerFailure.Explain(failed), more > 0 ? $" ({more} more since the last line)" : "");
            }

            return false;
        }
    }
}
