using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Edges.Patience;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Worker.Api;

/// <summary><c>/metrics</c>: how the worker itself is doing, in the text format of OpenMetrics.</summary>
internal static class MetricsApi
{
    public static void Map(WebApplication app) => app.MapGet("/metrics", (IServiceProvider services) =>
        TypedResults.Text(Text(services), OpenMetricsText.ContentType)).ExcludeFromDescription();

    private static string Text(IServiceProvider services)
    {
        var text = new OpenMetricsText();
        var snapshot = services.GetRequiredService<CellLoop>().Snapshot;
        var book = services.GetRequiredService<AlarmBook>();
        AddCell(text, snapshot);
        AddLedger(text, snapshot.Counts, book);
        text.Gauge("climateguard_broker_connected", "1 when connected to the broker and subscribed.", null,
            One(services.GetRequiredService<BrokerLink>().State.Connected ? 1 : 0));
        if (services.GetService<SqliteReadings>() is { } file)
        {
            AddStore(text, file.Health(), services.GetRequiredService<FullDiskReadings>());
        }

        if (services.GetService<InfluxReadings>() is { } influx)
        {
            AddInflux(text, influx.Health());
        }

        AddAlarms(text, book, book.At(services.GetRequiredService<WorkerPlan>().CellTime.GetUtcNow()));
        AddChannels(text, [.. services.GetServices<NoticeChannel>().Select(channel => channel.Health())]);
        return text.End();
    }

    private static void AddCell(OpenMetricsText text, CellSnapshot snapshot)
    {
        var counts = snapshot.Counts;
        text.Counter("climateguard_readings", "Readings taken in since the start, by what trust said.", null,
                ("outcome", "accepted", counts.Readings), ("outcome", "quarantined", counts.Quarantined))
            .Counter("climateguard_unreadable_messages", "Messages that could not be read.", null, One(counts.Unreadable))
            .Counter("climateguard_events", "Events taken in, and those that named something unknown.", null,
                ("outcome", "taken", counts.Events), ("outcome", "refused", counts.Refused))
            .Gauge("climateguard_config_refused", "1 while a changed plant file is refused and an earlier version stays in force.", null,
                One(snapshot.RefusedPlant is null ? 0 : 1))
            .Gauge("climateguard_machines", "Machines by the level of their outlook.", null,
                Enum.GetValues<Level>().Select(level => (
                    (string?)"level", (string?)level.Word(), (double)snapshot.Machines.Count(machine => machine.Outlook.Level == level))))
            .Gauge("climateguard_sensors", "Sensors by how far they can be used.", null,
                Enum.GetValues<SensorState>().Select(state => (
                    (string?)"state", (string?)JsonWord.Of(state.ToString()), (double)snapshot.Sensors.Count(sensor => sensor.State == state))));
    }

    private static void AddLedger(OpenMetricsText text, LoopCounts counts, AlarmBook book)
    {
        IEnumerable<(string?, string?, double)> decided = book.Lines.Select(line => ((string?)"kind", (string?)line.Kind, (double)line.Count));
        text.Counter("climateguard_ledger_lines", "Lines written to the ledger since the start, by kind.", null,
            [("kind", LedgerLines.EventKind, counts.Events), .. decided]);
    }

    private static void AddStore(OpenMetricsText text, HistoryHealth health, FullDiskReadings keeping)
    {
        text.Gauge("climateguard_store_rows", "Readings in the store.", null, One(health.Rows))
            .Gauge("climateguard_store_size_bytes", "Size of the store on disk.", "bytes", One(health.Bytes))
            .Gauge("climateguard_store_free_bytes", "Free space of its disk; no sample when not known.", "bytes", Known(health.FreeBytes))
            .Gauge("climateguard_store_last_commit_seconds", "When it last committed, seconds since 1970; no sample before the first.", "seconds",
                Known(health.LastCommit?.ToUnixTimeMilliseconds() / 1000.0))
            .Counter("climateguard_store_not_kept", "Readings and unreadable messages not kept for want of space since the start.", null, One(keeping.NotKept))
            .Gauge("climateguard_store_keeping", "1 while readings are kept, 0 while the disk is full.", null, One(keeping.Gap is null ? 1 : 0))
            .Gauge("climateguard_store_damaged_files", "Files of the history set aside as damaged since the start.", null, One(health.Damaged.Count));
    }

    private static void AddInflux(OpenMetricsText text, InfluxHealth health)
    {
        text.Counter("climateguard_influx_rows", "Readings brought into InfluxDB since the start, by what became of them.", null,
                ("outcome", "used", health.Rows), ("outcome", "quarantined", health.SetAside))
            .Counter("climateguard_influx_points_refused", "Points that InfluxDB will never take, kept in refused.jsonl, since the start.", null, One(health.RefusedPoints))
            .Gauge("climateguard_influx_failing", "1 when InfluxDB takes nothing.", null, One(health.Trouble is null ? 0 : 1))
            .Gauge("climateguard_influx_last_commit_seconds", "When InfluxDB last took something, seconds since 1970; no sample before the first.", "seconds",
                Known(health.LastCommit?.ToUnixTimeMilliseconds() / 1000.0))
            .Gauge("climateguard_spool_batches", "Batches that wait on disk for InfluxDB; they are in no series yet.", null, One(health.SpooledBatches))
            .Gauge("climateguard_spool_size_bytes", "Size of the spool on disk.", "bytes", One(health.SpooledBytes))
            .Gauge("climateguard_spool_limit_bytes", "The most that may wait.", "bytes", One(health.SpoolLimitBytes))
            .Gauge("climateguard_spool_full", "1 when the spool is full and nothing is taken from the broker.", null, One(health.IsFull ? 1 : 0))
            .Gauge("climateguard_spool_oldest_seconds", "When the oldest that waits was spooled, seconds since 1970; no sample when nothing waits.", "seconds",
                Known(health.OldestSpooled?.ToUnixTimeMilliseconds() / 1000.0));
    }

    private static void AddAlarms(OpenMetricsText text, AlarmBook book, AlarmFiguresReport report)
    {
        text.Counter("climateguard_alerts", "Alerts raised since the start, by priority.", null,
                Enum.GetValues<AlertPriority>().Select(priority => (
                    (string?)"priority", (string?)JsonWord.Of(priority.ToString()), (double)book.Raised(priority))))
            .Gauge("climateguard_alerts_standing", "Alerts that stand.", null, One(report.Standing))
            .Gauge("climateguard_alarms_in_ten_minutes", "Alarms in the last 10 minutes.", null, One(report.InTenMinutes))
            .Gauge("climateguard_alarms_in_an_hour", "Alarms in the last hour.", null, One(report.InAnHour))
            .Gauge("climateguard_alarms_in_this_shift", "Alarms in the present shift; no sample between shifts.", null, Known(report.InThisShift))
            .Gauge("climateguard_alarm_flood", "1 in a flood: from more than 10 alarms in 10 minutes until fewer than 5.", null, One(report.InFlood ? 1 : 0))
            .Gauge("climateguard_alarm_flood_ratio", "Share of the time in flood, over at most 30 days.", "ratio", One(report.FloodShare))
            .Gauge("climateguard_alarms_stale", "Alarms that stand for more than 24 hours.", null, One(report.Stale.Count))
            .Gauge("climateguard_alarm_causes_chattering", "Causes that came 3 times within a minute, over at most 30 days, at most 10.", null, One(report.Chattering.Count))
            .Gauge("climateguard_alarm_evidence_seconds", "Over how long the alarm figures look back.", "seconds", One((report.Time - report.Since).TotalSeconds));
    }

    private static void AddChannels(OpenMetricsText text, IReadOnlyList<ChannelHealth> channels)
    {
        text.Counter("climateguard_notices_delivered", "Messages to people delivered since the start.", null, Of(channels, health => health.Delivered))
            .Counter("climateguard_notices_lost", "Alerts that found no room in the queue of a channel; they are in the ledger.", null, Of(channels, health => health.Lost))
            .Gauge("climateguard_notices_waiting", "Messages to people that wait for delivery.", null, Of(channels, health => health.Waiting))
            .Gauge("climateguard_notices_given_up", "Messages to people that were given up and are kept.", null, Of(channels, health => health.DeadLetters))
            .Gauge("climateguard_channel_failing", "1 when a channel to people does not get through.", null, Of(channels, health => health.Healthy ? 0 : 1));
    }

    private static IEnumerable<(string?, string?, double)> One(double value) => [(null, null, value)];

    private static IEnumerable<(string?, string?, double)> Known(double? value) => value is { } known ? [(null, null, known)] : [];

    private static IEnumerable<(string?, string?, double)> Of(IReadOnlyList<ChannelHealth> channels, Func<ChannelHealth, double> figure) =>
        channels.Select(health => ((string?)"channel", (string?)health.Channel, figure(health)));
}
