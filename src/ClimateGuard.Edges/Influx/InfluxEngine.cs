using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Influx;

/// <summary>Brings readings into InfluxDB so that the first value of each (sensor, event time) wins. One caller at a time.</summary>
/// <remarks>The same readings brought twice, wholly or in part, give the same points: a write that failed half-way is simply done again.</remarks>
internal sealed class InfluxEngine(InfluxSettings settings, InfluxQuery query, InfluxWriter writer, string cell, RefusedPoints refused)
{
    private const int MostStatements = 100;
    private const int MostInRange = 1_000_000;

    private readonly FirstValues firsts = new();
    private readonly LineBatch lines = new(cell);
    private readonly LineSender sender = new(settings, writer, refused);
    private readonly InfluxQl questions = new(cell);

    /// <summary>Brings readings and messages in; when it returns InfluxDB has them, or they stand among the refused.</summary>
    /// <returns>How many readings were new, and how many were set aside.</returns>
    /// <exception cref="InfluxFaultException">They are not, or not all, or it is not known.</exception>
    public async Task<(int Readings, int SetAside)> WriteAsync(
        IReadOnlyList<KeptReading> readings, IReadOnlyList<KeptMessage> messages, CancellationToken cancellation)
    {
        try
        {
            if (!firsts.Known)
            {
                await LearnAsync(cancellation);
            }

            await AskForLateAsync(readings, cancellation);
            var counts = Lines(readings, messages);
            await sender.SendAsync(lines, cancellation);
            firsts.Settle();
            return counts;
        }
        catch
        {
            firsts.Forget();
            throw;
        }
    }

    private async Task LearnAsync(CancellationToken cancellation)
    {
        using var answer = await query.AskAsync(questions.Newest(), ["time", "last"], cancellation);
        firsts.Learn(answer.Tables.SelectMany(table => table.Rows.Select(row => (table.Tag("sensor"), row[0].GetInt64()))));
    }

    private async Task AskForLateAsync(IReadOnlyList<KeptReading> readings, CancellationToken cancellation)
    {
        List<(string Sensor, long Time)>? late = null;
        for (var i = 0; i < readings.Count; i++)
        {
            var reading = readings[i];
            if (reading.Trust != Trust.Quarantined && firsts.MustAsk(reading.Sensor, reading.Time))
            {
                (late ??= []).Add((reading.Sensor, reading.Time));
            }
        }

        foreach (var page in late is null ? [] : LateRanges.Of(late).Chunk(MostStatements))
        {
            var statements = string.Join("; ", page.Select(range => questions.Held(range.Sensor, range.From, range.To + 1, MostInRange)));
            using var answer = await query.AskAsync(statements, InfluxRows.ReadingColumns, cancellation);
            foreach (var table in answer.Tables)
            {
                var sensor = table.Tag("sensor");
                foreach (var row in table.Rows)
                {
                    var stored = InfluxRows.Reading(row);
                    firsts.Tell(sensor, stored.EpochMilliseconds, stored.Raw);
                }
            }
        }
    }

    private (int Readings, int SetAside) Lines(IReadOnlyList<KeptReading> readings, IReadOnlyList<KeptMessage> messages)
    {
        lines.Clear();
        var (used, aside) = (0, 0);
        for (var i = 0; i < readings.Count; i++)
        {
            var reading = readings[i];
            var standing = reading.Trust == Trust.Quarantined ? Standing.Duplicate : firsts.Take(reading.Sensor, reading.Time, reading.Raw);
            if (standing == Standing.First)
            {
                used++;
                lines.AddReading(reading);
            }
            else if (standing == Standing.Duplicate)
            {
                aside++;
                lines.AddSetAside(reading, reading.Trust == Trust.Quarantined ? reading.Reason : TrustReason.Duplicate);
            }
        }

        for (var i = 0; i < messages.Count; i++)
        {
            lines.AddMessage(messages[i]);
        }

        return (used, aside);
    }
}
