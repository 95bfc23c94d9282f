using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>The scoreboard of the running worker: reads the ledger on from where it was, and the air of the history when asked.</summary>
/// <remarks>Safe across threads; one question at a time, so that ten open pages read the history once.</remarks>
internal sealed class ScoreBook(CellLoop loop, ILedgerStore ledger, IReadingStore readings, WorkerPlan plan, ILogger<ScoreBook> logger) : IDisposable
{
    private static readonly TimeSpan AirGoodFor = TimeSpan.FromMinutes(5);

    /// <summary>The plain limits that stand beside our score, in K.</summary>
    public static IReadOnlyList<double> AirLimits { get; } = [1.0, 0.5];

    /// <summary>How far back the score reaches when nobody says.</summary>
    public static readonly TimeSpan UsualSpan = TimeSpan.FromDays(30);

    private readonly SemaphoreSlim gate = new(1, 1);
    private HoldHistory history = new();
    private Cell? known;
    private long read;
    private (DateTimeOffset From, DateTimeOffset To, AirLimitComparison Played)? air;

    public void Dispose() => gate.Dispose();

    /// <summary>The score of a span; null for its ends: the last 30 days.</summary>
    public async Task<(ScoreReport Report, IReadOnlyList<AirLimitScore>? Air)> AtAsync(DateTimeOffset? from, DateTimeOffset? to, CancellationToken cancellation)
    {
        await gate.WaitAsync(cancellation);
        try
        {
            await ReadOnAsync(cancellation);
            var end = to ?? plan.CellTime.GetUtcNow();
            var begin = from ?? end - UsualSpan;
            var report = ScoreReport.Of(history, loop.Snapshot.Cell, begin, end);
            return (report, await AirAsync(report, begin, end, cancellation));
        }
        finally
        {
            gate.Release();
        }
    }

    private async Task ReadOnAsync(CancellationToken cancellation)
    {
        var cell = loop.Snapshot.Cell;
        if (!ReferenceEquals(cell, known))
        {
            // Another plant file may know other features: what was inspected is read anew.
            (history, known, read) = (new HoldHistory(), cell, 0);
        }

        await foreach (var entry in ledger.AllAsync(read, cancellation))
        {
            if (ScoreLines.Of(entry.Line, cell) is { } fact)
            {
                history.Take(fact);
            }

            read = entry.Seq;
        }
    }

    private async Task<IReadOnlyList<AirLimitScore>?> AirAsync(ScoreReport report, DateTimeOffset from, DateTimeOffset to, CancellationToken cancellation)
    {
        // Nothing stands in the ledger or in the history before the first line of the ledger.
        var first = history.Span?.First is { } line && line > from ? line : from;
        if (first >= to)
        {
            return [];
        }

        try
        {
            if (air is not { } kept || kept.From != first || (to - kept.To).Duration() > AirGoodFor)
            {
                kept = (first, to, await AirHistory.PlayAsync(readings, loop.Snapshot.Cell, first, to, AirLimits, cancellation));
                air = kept;
            }

            return kept.Played.Scores(report.Holds);
        }
        catch (Exception failure) when (failure is StoreUnavailableException or IOException)
        {
            logger.LogWarning("The air limits could not be compared, as the history could not be read: {Reason}", failure.Message);
            return null;
        }
    }
}
