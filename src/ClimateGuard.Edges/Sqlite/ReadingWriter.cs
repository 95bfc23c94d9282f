using System.Runtime.InteropServices;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Writes batches of judged readings into the log, one transaction each.</summary>
/// <remarks>The first value of a (sensor, event time) wins. The same again is a second delivery and leaves no trace; another value is set
/// aside as a duplicate. Raw values are compared, so that a calibration changed in between makes no conflict. Not safe across threads.</remarks>
internal sealed class ReadingWriter : IDisposable
{
    private readonly SqliteConnection connection;
    private readonly LooseMemory memory;
    private readonly LooseLog looseLog;
    private readonly PackedRows packed;
    private readonly long[] reasonRows;
    private readonly SqliteStatement begin;
    private readonly SqliteStatement commit;
    private readonly SqliteStatement quarantine;
    private readonly SqliteStatement stamp;
    private readonly SqliteStatement log;
    private readonly SqliteStatement count;
    private readonly ByteSink body = new();
    private readonly List<(long Sensor, HistoryRow Row)> fresh = [];
    private long[] sensorRows = [];

    public ReadingWriter(SqliteConnection connection, LooseMemory memory, SegmentShelf shelf)
    {
        this.connection = connection;
        this.memory = memory;
        looseLog = new LooseLog(connection, memory, shelf);
        packed = new PackedRows(shelf);
        reasonRows = NameTable.Rows(connection, "reason", Enum.GetNames<TrustReason>());
        begin = new(connection, "BEGIN IMMEDIATE");
        commit = new(connection, "COMMIT");
        quarantine = new(
            connection, "INSERT INTO quarantine(sensor, t, raw, reason, arrived) VALUES(?1, ?2, ?3, ?4, ?5) ON CONFLICT DO NOTHING");
        stamp = new(connection, "INSERT INTO stamp(sensor, t, stamped) VALUES(?1, ?2, ?3) ON CONFLICT DO NOTHING");
        log = new(connection, "INSERT INTO log(id, body) VALUES(?1, ?2)");
        count = new(connection, "UPDATE tally SET readings = readings + ?1, quarantined = quarantined + ?2, logged = ?3");
    }

    /// <summary>Takes the numbers of the sensors from this cell from now on.</summary>
    public void UseCell(Cell cell) => sensorRows = NameTable.Rows(connection, "sensor", cell.Sensors.Select(sensor => sensor.Id));

    /// <summary>Writes a batch; on return it is committed, on an exception nothing of it is there.</summary>
    /// <param name="batch">The readings.</param>
    /// <param name="now">Time of storing, in ms since 1970.</param>
    /// <param name="monotonic">The moment by the monotonic clock, in ms.</param>
    /// <returns>How many rows were new.</returns>
    public (int Readings, int Quarantined) Append(ReadOnlySpan<TrustedReading> batch, long now, long monotonic)
    {
        using var order = new BatchOrder(batch, sensorRows);
        fresh.Clear();
        packed.Forget();
        var quarantined = 0;
        begin.Run();
        try
        {
            looseLog.Follow(monotonic);
            foreach (var place in order.Places)
            {
                quarantined += Put(place, in batch[place.Index], now);
            }

            Commit(quarantined, monotonic);
            return (fresh.Count, quarantined);
        }
        catch
        {
            connection.RollBackIfOpen();
            throw;
        }
    }

    public void Dispose()
    {
        packed.Dispose();
        looseLog.Dispose();
        foreach (var statement in (ReadOnlySpan<SqliteStatement>)[begin, commit, quarantine, stamp, log, count])
        {
            statement.Dispose();
        }
    }

    private void Commit(int quarantined, long monotonic)
    {
        var logged = memory.Logged;
        var rows = CollectionsMarshal.AsSpan(fresh);
        if (rows.Length > 0)
        {
            logged++;
            LogBody.Pack(rows, body);
            log.Bind(1, logged).Bind(2, body.Written).Run();
        }

        if (rows.Length + quarantined > 0)
        {
            count.Bind(1, rows.Length).Bind(2, quarantined).Bind(3, logged).Run();
        }

        // Under the gate, so that no reader sees the one without the other.
        lock (memory.Gate)
        {
            commit.Run();
            memory.Add(rows, logged, monotonic);
        }
    }

    /// <returns>How many rows were set aside.</returns>
    private int Put(BatchOrder.Place place, in TrustedReading reading, long now)
    {
        if (reading.Trust == Trust.Quarantined)
        {
            if (reading.Reason == TrustReason.Duplicate && Stored(place) == reading.Raw.Value)
            {
                return 0;
            }

            return SetAside(place, reading.Raw.Value, reading.Reason, now);
        }

        if (place.Time < memory.RawFloor)
        {
            return SetAside(place, reading.Raw.Value, TrustReason.TooOld, now);
        }

        if (Stored(place) is { } stored)
        {
            return stored == reading.Raw.Value ? 0 : SetAside(place, reading.Raw.Value, TrustReason.Duplicate, now);
        }

        var plain = reading.Trust == Trust.Accepted && reading.Value == reading.Raw.Value;
        fresh.Add((place.Row, new HistoryRow(
            place.Time, reading.Value, reading.Raw.Value, plain ? (byte)0 : (byte)reasonRows[(int)reading.Reason])));
        if (reading.ClockAheadMilliseconds != 0)
        {
            stamp.Bind(1, place.Row).Bind(2, place.Time).Bind(3, reading.Raw.EpochMilliseconds).Run();
        }

        return 0;
    }

    /// <summary>The raw value that a moment has already, or null.</summary>
    private double? Stored(BatchOrder.Place place)
    {
        if (fresh.Count > 0 && fresh[^1] is var last && last.Sensor == place.Row && last.Row.Time == place.Time)
        {
            return last.Row.Raw;
        }

        return memory.RawOf(place.Row, place.Time)
            ?? (memory.MayBePacked(place.Row, place.Time) ? packed.RawOf(place.Row, place.Time) : null);
    }

    private int SetAside(BatchOrder.Place place, double raw, TrustReason reason, long now)
    {
        quarantine.Bind(1, place.Row).Bind(2, place.Time).Bind(3, raw).Bind(4, reasonRows[(int)reason]).Bind(5, now).Run();
        return quarantine.Changes;
    }
}
