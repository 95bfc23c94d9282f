using System.Runtime.CompilerServices;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Influx;

/// <summary>Reads series, whole rows and unreadable messages, page by page. Safe across threads.</summary>
/// <param name="query">How to ask.</param>
/// <param name="cell">The cell, whose sensors are known before they have a reading.</param>
internal sealed class InfluxSeries(InfluxQuery query, Cell cell)
{
    private const int Page = 20_000;

    private readonly InfluxQl questions = new(cell.Id);

    /// <summary>The accepted readings of a window, at most so many points.</summary>
    public async Task<IReadOnlyList<SeriesPoint>> ReadAsync(string sensor, SeriesReader.Window window, int points, CancellationToken cancellation)
    {
        await CheckKnownAsync(sensor, cancellation);
        if (await EndsAsync(sensor, window, cancellation) is not var (first, last))
        {
            return [];
        }

        var thinning = new SeriesThinning(points, first, last);
        for (var from = first; from <= last;)
        {
            using var answer = await query.AskAsync(questions.Readings(sensor, from, last + 1, Page), InfluxRows.ReadingColumns, cancellation);
            var count = 0;
            foreach (var row in answer.Tables.SelectMany(table => table.Rows))
            {
                from = row[0].GetInt64() + 1;
                thinning.Add(new SeriesPoint(from - 1, row[1].GetDouble()));
                count++;
            }

            if (count < Page)
            {
                break;
            }
        }

        return thinning.Points();
    }

    /// <summary>Every row of a window in time order; of one moment first what is used, then what was set aside.</summary>
    public async IAsyncEnumerable<StoredReading> RowsAsync(
        string sensor, SeriesReader.Window window, [EnumeratorCancellation] CancellationToken cancellation)
    {
        await CheckKnownAsync(sensor, cancellation);
        for (var from = window.From; from < window.To;)
        {
            var (rows, next) = await PageAsync(sensor, window with { From = from }, cancellation);
            foreach (var row in rows)
            {
                yield return row;
            }

            from = next;
        }
    }

    /// <summary>The newest unreadable messages, newest first.</summary>
    public async Task<IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)>> UnreadableAsync(int most, CancellationToken cancellation)
    {
        using var answer = await query.AskAsync(questions.Unreadable(most), ["time", "topic", "reason", "payload"], cancellation);
        return [.. answer.Tables.SelectMany(table => table.Rows).Select(row => (
            DateTimeOffset.FromUnixTimeMilliseconds(row[0].GetInt64()),
            new UnreadableMessage(row[1].GetString()!, row[2].GetString()!, row[3].GetString()!)))];
    }

    private async Task<(IReadOnlyList<StoredReading> Rows, long Next)> PageAsync(
        string sensor, SeriesReader.Window window, CancellationToken cancellation)
    {
        var used = await RowsAsync(questions.Readings(sensor, window.From, window.To, Page), InfluxRows.ReadingColumns, InfluxRows.Reading, cancellation);
        var next = used.Count < Page ? window.To : used[^1].EpochMilliseconds + 1;
        var aside = await RowsAsync(questions.SetAside(sensor, window.From, next, Page), InfluxRows.SetAsideColumns, InfluxRows.SetAside, cancellation);
        if (aside.Count == Page && aside[^1].EpochMilliseconds > window.From)
        {
            // The last moment may have been cut in two: it begins the next page.
            next = aside[^1].EpochMilliseconds;
        }

        return ([.. used.Concat(aside).Where(row => row.EpochMilliseconds < next)
            .OrderBy(row => row.EpochMilliseconds).ThenBy(row => row.Trust == Trust.Quarantined).ThenBy(row => row.Raw)], next);
    }

    private async Task<List<StoredReading>> RowsAsync(
        string statement, string[] columns, Func<System.Text.Json.JsonElement, StoredReading> take, CancellationToken cancellation)
    {
        using var answer = await query.AskAsync(statement, columns, cancellation);
        return [.. answer.Tables.SelectMany(table => table.Rows).Select(take)];
    }

    private async Task<(long First, long Last)?> EndsAsync(string sensor, SeriesReader.Window window, CancellationToken cancellation)
    {
        if (window.From >= window.To)
        {
            return null;
        }

        var both = $"{questions.Outermost(sensor, window.From, window.To, last: false)}; {questions.Outermost(sensor, window.From, window.To, last: true)}";
        using var answer = await query.AskAsync(both, ["time", "value"], cancellation);
        long[] ends = [.. answer.Tables.SelectMany(table => table.Rows).Select(row => row[0].GetInt64())];
        return ends.Length == 2 ? (ends[0], ends[1]) : null;
    }

    private async Task CheckKnownAsync(string sensor, CancellationToken cancellation)
    {
        if (cell.IndexOfSensor(sensor) >= 0)
        {
            return;
        }

        using var answer = await query.AskAsync(questions.Sensors(), ["key", "value"], cancellation);
        string[] known = [.. answer.Tables.SelectMany(table => table.Rows).Select(row => row[1].GetString()!), .. cell.Sensors.Select(one => one.Id)];
        if (!known.Contains(sensor, StringComparer.Ordinal))
        {
            throw new ArgumentException(
                $"No sensor '{sensor}' in this cell or in its history; {NearestNames.Hint(sensor, [.. known.Distinct()])}", nameof(sensor));
        }
    }
}
