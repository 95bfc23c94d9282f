using System.Runtime.InteropServices;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Influx;

/// <content>How a batch is committed: in InfluxDB, or on disk.</content>
public sealed partial class InfluxReadings
{
    private static StoreUnavailableException Unread(InfluxFaultException fault) =>
        new($"Cannot read the history: {fault.Message} What is stored was not touched.", fault);

    private void Start()
    {
        if (drain is null)
        {
            Volatile.Write(ref spool, Spool.Open(folder, Limit, log));
            drain = new SpoolDrain(spool!, WriteAsync, log);
        }
    }

    private void AddInOrder(ReadOnlySpan<TrustedReading> batch)
    {
        using var order = new BatchOrder(batch, sensorRows);
        foreach (var place in order.Places)
        {
            ref readonly var reading = ref batch[place.Index];
            rows.Add(new KeptReading(
                cell.Sensors[reading.Raw.Sensor].Id, place.Time, reading.Raw.Value, reading.Value, reading.Trust, reading.Reason));
        }
    }

    private async Task CommitAsync(CancellationToken cancellation)
    {
        Start();
        if (spool!.IsEmpty)
        {
            try
            {
                await WriteAsync(rows, kept, cancellation);
                return;
            }
            catch (InfluxFaultException fault)
            {
                log.LogWarning("{Reason} Until it takes them, readings wait on disk in {Folder}.", fault.Message, folder);
            }
        }

        await SpoolAsync(cancellation);
    }

    private async Task WriteAsync(List<KeptReading> readings, List<KeptMessage> messages, CancellationToken cancellation)
    {
        try
        {
            var (used, aside) = await engine.WriteAsync(readings, messages, cancellation);
            var refusedBefore = health.RefusedPoints;
            Note(health => health with
            {
                Rows = health.Rows + used, SetAside = health.SetAside + aside, LastCommit = clock.GetUtcNow(), Trouble = null, RefusedPoints = refused.Count,
            });
            if (refused.Count > refusedBefore)
            {
                log.LogError(
                    "InfluxDB will never take {Count} points; they are kept, each with its reason, in {File}.", refused.Count - refusedBefore, refused.Path);
            }
        }
        catch (InfluxFaultException fault)
        {
            Note(health => health with { Trouble = fault.Message });
            throw;
        }
    }

    private async Task SpoolAsync(CancellationToken cancellation)
    {
        for (var from = 0; from < rows.Count; from += SpoolPayload.MostReadings)
        {
            var part = CollectionsMarshal.AsSpan(rows).Slice(from, Math.Min(SpoolPayload.MostReadings, rows.Count - from));
            await SpoolAsync(SpoolPayload.Of(clock.GetUtcNow(), part, []), cancellation);
        }

        for (var from = 0; from < kept.Count; from += SpoolPayload.MostMessages)
        {
            var part = CollectionsMarshal.AsSpan(kept).Slice(from, Math.Min(SpoolPayload.MostMessages, kept.Count - from));
            await SpoolAsync(SpoolPayload.Of(clock.GetUtcNow(), [], part), cancellation);
        }

        if (Volatile.Read(ref health).IsFull)
        {
            Note(health => health with { IsFull = false });
            log.LogWarning("There is room in the spool again; readings are taken from the broker again.");
        }
    }

    private async Task SpoolAsync(byte[] payload, CancellationToken cancellation)
    {
        while (!spool!.TryAppend(payload, clock.GetUtcNow()))
        {
            if (!Volatile.Read(ref health).IsFull)
            {
                Note(health => health with { IsFull = true });
                log.LogError(
                    "The spool in {Folder} is full ({Megabytes} MiB): nothing is taken from the broker until InfluxDB takes something; the broker keeps it. {Trouble}",
                    folder, settings.SpoolMegabytes, health.Trouble);
            }

            drain!.Wake();
            await Task.Delay(FullPause, cancellation);
        }

        drain!.Wake();
    }

    private void Note(Func<InfluxHealth, InfluxHealth> change)
    {
        lock (noting)
        {
            Volatile.Write(ref health, change(health));
        }
    }
}
