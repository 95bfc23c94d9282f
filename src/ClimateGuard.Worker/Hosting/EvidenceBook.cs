using ClimateGuard.Edges.Board;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>How far the evidence is.</summary>
/// <param name="What">What is being done, in a word or two.</param>
/// <param name="Share">How much of it is done, in [0, 1].</param>
internal sealed record EvidenceProgress(string What, double Share);

/// <summary>Evidence of the running worker: what ledger and history hold, through the replay of the pipeline, kept until something new came in.</summary>
/// <remarks>Safe across threads; one question at a time, so that ten open pages replay the history once.</remarks>
internal sealed class EvidenceBook(CellLoop loop, ILedgerStore ledger, IReadingStore readings) : IDisposable
{
    /// <summary>How long before the first cut the replay begins: structures remember days.</summary>
    public static readonly TimeSpan LeadIn = TimeSpan.FromDays(3);

    /// <summary>How far back from the last cut of an inspected part the evidence reaches; longer spans are for the verb.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(31);

    private static readonly SensorPlace[] Used =
    [
        SensorPlace.Air, SensorPlace.Coolant, SensorPlace.Dielectric, SensorPlace.Part, SensorPlace.Scale, SensorPlace.Structure, SensorPlace.Storage, SensorPlace.Hall,
    ];

    private readonly SemaphoreSlim gate = new(1, 1);
    private (string Version, string Results, Span Span, BoardData Data)? kept;

    private EvidenceProgress? progress;

    /// <summary>How far it is with what is being worked out; null when nothing is.</summary>
    public EvidenceProgress? Progress => Volatile.Read(ref progress);

    public void Dispose() => gate.Dispose();

    /// <summary>The evidence of everything that was inspected; null when nothing was, or nothing of it was cut here.</summary>
    /// <exception cref="StoreUnavailableException">The history or the ledger cannot be read.</exception>
    public async Task<BoardData?> NowAsync(CancellationToken cancellation)
    {
        await gate.WaitAsync(cancellation);
        try
        {
            var snapshot = loop.Snapshot;
            var held = await LedgerEvidence.ReadAsync(ledger, snapshot.Cell, cancellation);
            if (Span.Of(held) is not { } span)
            {
                return null;
            }

            if (kept is { } known && known.Version == snapshot.ConfigVersion && known.Results == held.ResultsHead && known.Span == span)
            {
                return known.Data;
            }

            Volatile.Write(ref progress, new("reading the history", 0));
            var data = await RunAsync(snapshot, held, span, cancellation);
            kept = (snapshot.ConfigVersion, held.ResultsHead, span, data);
            return data;
        }
        finally
        {
            Volatile.Write(ref progress, null);
            gate.Release();
        }
    }

    private async Task<BoardData> RunAsync(CellSnapshot snapshot, LedgerEvidence held, Span span, CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-board-");
        try
        {
            var (rows, lines) = (Path.Combine(folder.FullName, "readings.csv.gz"), Path.Combine(folder.FullName, "events.jsonl"));
            await new ReadingsExport { Path = rows, Sensors = [.. snapshot.Cell.Sensors.Where(sensor => Used.Contains(sensor.Place))], From = span.From, To = span.To }.WriteAsync(readings, cancellation);
            await WriteAsync(lines, held.Events.Where(span.Holds), cancellation);
            return await EvidenceRun.RunAsync(
                new EvidenceFiles
                {
                    Cell = snapshot.Cell, ConfigVersion = snapshot.ConfigVersion, Readings = rows, Events = lines, Values = held.Values, ResultsSha256 = held.ResultsHead, Frozen = held.Frozen,
                },
                (what, share, _) => Volatile.Write(ref progress, new(what, share)), cancellation);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task WriteAsync(string file, IEnumerable<CellEvent> events, CancellationToken cancellation)
    {
        await using var stream = File.Create(file);
        foreach (var happened in events)
        {
            await stream.WriteAsync(EventJson.ToUtf8(happened), cancellation);
            stream.WriteByte((byte)'\n');
        }
    }

    /// <summary>What is replayed; events that come later, from work that was not inspected, change nothing of it.</summary>
    private sealed record Span(DateTimeOffset From, DateTimeOffset To, int Steps)
    {
        public int Events { get; private init; }

        public static Span? Of(LedgerEvidence held)
        {
            var genealogy = GenealogyRecord.Of(held.Events);
            WorkStep[] steps = [.. held.Values.Select(value => genealogy.StepOf(value).Step).OfType<WorkStep>().Distinct()];
            if (steps.Length == 0)
            {
                return null;
            }

            var to = steps.Max(step => step.End ?? step.Window()?.End ?? step.Begin.AddHours(8));
            var first = steps.Min(step => step.Begin);
            var span = new Span((first > to - Longest ? first : to - Longest) - LeadIn, to.AddMinutes(1), steps.Length);
            return span with { Events = held.Events.Count(span.Holds) };
        }

        public bool Holds(CellEvent happened) => happened.Time >= From && happened.Time <= To;
    }
}
