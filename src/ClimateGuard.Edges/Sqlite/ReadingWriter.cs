using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Writes batches of judged readings, one transaction each.</summary>
/// <remarks>The first value of a (sensor, event time) wins. The same again is a second delivery and leaves no trace; another value is set
/// aside as a duplicate. Raw values are compared, so that a calibration changed in between makes no conflict. Not safe across threads.</remarks>
internal sealed class ReadingWriter : IDisposable
{
    private readonly SqliteConnection connection;
    private readonly long[] reasonRows;
    private readonly SqliteStatement begin;
    private readonly SqliteStatement commit;
    private readonly SqliteStatement accept;
    private readonly SqliteStatement correct;
    private readonly SqliteStatement quarantine;
    private readonly SqliteStatement storedRaw;
    private readonly SqliteStatement count;
    private long[] sensorRows = [];

    public ReadingWriter(SqliteConnection connection)
    {
        this.connection = connection;
        reasonRows = NameTable.Rows(connection, "reason", Enum.GetNames<TrustReason>());
        begin = new(connection, "BEGIN IMMEDIATE");
        commit = new(connection, "COMMIT");
        accept = new(connection, "INSERT INTO reading(sensor, t, value) VALUES(?1, ?2, ?3) ON CONFLICT DO NOTHING");
        correct = new(connection, "INSERT INTO reading(sensor, t, value, raw, reason, stamped) VALUES(?1, ?2, ?3, ?4, ?5, nullif(?6, ?2)) ON CONFLICT DO NOTHING");
        quarantine = new(
            connection, "INSERT INTO quarantine(sensor, t, raw, reason, arrived) VALUES(?1, ?2, ?3, ?4, ?5) ON CONFLICT DO NOTHING");
        storedRaw = new(connection, "SELECT coalesce(raw, value) FROM reading WHERE sensor = ?1 AND t = ?2");
        count = new(connection, "UPDATE tally SET readings = readings + ?1, quarantined = quarantined + ?2");
    }

    /// <summary>Takes the numbers of the sensors from this cell from now on.</summary>
    public void UseCell(Cell cell) => sensorRows = NameTable.Rows(connection, "sensor", cell.Sensors.Select(sensor => sensor.Id));

    /// <summary>Writes a batch; on return it is committed, on an exception nothing of it is there.</summary>
    /// <param name="batch">The readings.</param>
    /// <param name="now">Time of storing, in ms since 1970.</param>
    /// <returns>How many rows were new.</returns>
    public (int Readings, int Quarantined) Append(ReadOnlySpan<TrustedReading> batch, long now)
    {
        using var order = new BatchOrder(batch, sensorRows);
        var (readings, quarantined) = (0, 0);
        begin.Run();
        try
        {
            foreach (var place in order.Places)
            {
                var fresh = Put(place, in batch[place.Index], now);
                readings += fresh.Readings;
                quarantined += fresh.Quarantined;
            }

            if (readings + quarantined > 0)
            {
                count.Bind(1, readings).Bind(2, quarantined).Run();
            }

            commit.Run();
            return (readings, quarantined);
        }
        catch
        {
            connection.RollBackIfOpen();
            throw;
        }
    }

    public void Dispose()
    {
        foreach (var statement in (ReadOnlySpan<SqliteStatement>)[begin, commit, accept, correct, quarantine, storedRaw, count])
        {
            statement.Dispose();
        }
    }

    private (int Readings, int Quarantined) Put(BatchOrder.Place place, in TrustedReading reading, long now)
    {
        if (reading.Trust == Trust.Quarantined)
        {
            if (reading.Reason == TrustReason.Duplicate
                && storedRaw.Bind(1, place.Row).Bind(2, place.Time).RunForNumber() == reading.Raw.Value)
            {
                return (0, 0);
            }

            return (0, SetAside(place, reading.Raw.Value, reading.Reason, now));
        }

        if (reading.Trust == Trust.Accepted && reading.Value == reading.Raw.Value)
        {
            accept.Bind(1, place.Row).Bind(2, place.Time).Bind(3, reading.Value).Run();
            if (accept.Changes == 1)
            {
                return (1, 0);
            }
        }
        else
        {
            correct.Bind(1, place.Row).Bind(2, place.Time).Bind(3, reading.Value)
                .Bind(4, reading.Raw.Value).Bind(5, reasonRows[(int)reading.Reason])
                .Bind(6, reading.Raw.EpochMilliseconds).Run();
            if (correct.Changes == 1)
            {
                return (1, 0);
            }
        }

        var stored = storedRaw.Bind(1, place.Row).Bind(2, place.Time).RunForNumber();
        return stored == reading.Raw.Value ? (0, 0) : (0, SetAside(place, reading.Raw.Value, TrustReason.Duplicate, now));
    }

    private int SetAside(BatchOrder.Place place, double raw, TrustReason reason, long now)
    {
        quarantine.Bind(1, place.Row).Bind(2, place.Time).Bind(3, raw).Bind(4, reasonRows[(int)reason]).Bind(5, now).Run();
        return quarantine.Changes;
    }
}
