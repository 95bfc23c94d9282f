using System.Globalization;
using System.Text;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>
/// Two plain topics a machine for a gateway with discrete outputs: the permit line, 1 while a permit holds, and a heartbeat once a second.
/// De-energise to hold: a gateway takes a missing or standing heartbeat as 0. In a programme path only, never in a guard or emergency stop.
/// </summary>
public sealed class MqttPermitLines
{
    private static readonly TimeSpan Pace = TimeSpan.FromSeconds(1);

    private readonly Topics topics;
    private readonly ILogger<MqttPermitLines> logger;
    private Func<CellSnapshot>? snapshot;

    /// <summary>Attaches to a link that is not started yet.</summary>
    /// <param name="link">The link.</param>
    /// <param name="logger">The log.</param>
    public MqttPermitLines(BrokerLink link, ILogger<MqttPermitLines> logger)
    {
        ArgumentNullException.ThrowIfNull(link);
        topics = link.Topics;
        this.logger = logger;
        link.WhileConnected(TellWhileConnectedAsync);
    }

    /// <summary>Says where the newest snapshot is; before the start of the link.</summary>
    /// <param name="source">Gives the newest snapshot.</param>
    public void Follow(Func<CellSnapshot> source) => snapshot = source;

    private async Task TellWhileConnectedAsync(BrokerConnection connection)
    {
        using var pace = new PeriodicTimer(Pace);
        var beat = 0L;
        DateTimeOffset last = default;
        try
        {
            while (await pace.WaitForNextTickAsync(connection.Ended))
            {
                if (snapshot?.Invoke() is not { } now || now.Time == last)
                {
                    // The loop stands still: the heartbeat must stand still with it.
                    continue;
                }

                last = now.Time;
                beat++;
                await TellAsync(connection, now, beat);
            }
        }
        catch (Exception ended) when (connection.Ended.IsCancellationRequested)
        {
            logger.LogDebug(ended, "The permit lines stand still without a connection");
        }
    }

    private async Task TellAsync(BrokerConnection connection, CellSnapshot now, long beat)
    {
        foreach (var machine in now.Machines)
        {
            var holds = machine.Permits.Newest is { } permit && permit.HoldsAt(now.Time);
            await connection.PublishAsync(topics.PermitLine(machine.Machine.Id), holds ? "1"u8.ToArray() : "0"u8.ToArray(), retain: false, connection.Ended);
            var count = Encoding.ASCII.GetBytes(beat.ToString(CultureInfo.InvariantCulture));
            await connection.PublishAsync(topics.PermitHeartbeat(machine.Machine.Id), count, retain: false, connection.Ended);
        }
    }
}
