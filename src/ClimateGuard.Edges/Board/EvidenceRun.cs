using System.Security.Cryptography;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Replay;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Board;

/// <summary>Evidence from stored readings, events and inspection results: the replay of the very pipeline, then the analysis.</summary>
public static class EvidenceRun
{
    /// <summary>Runs.</summary>
    /// <param name="files">What to rest on.</param>
    /// <param name="progress">Told what is done and how much of it, in [0, 1].</param>
    /// <param name="cancellation">Stops.</param>
    /// <exception cref="UnreadableFileException">A file cannot be used.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static async Task<BoardData> RunAsync(EvidenceFiles files, Action<string, double, long>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(files);
        var observer = new CutObserver(files.Cell);
        var last = DateTimeOffset.MinValue;
        var replayed = await ReplayAsync(files, progress, (moment, happened, loop) =>
        {
            last = moment;
            observer.Take(moment, happened, loop.Remembered(), loop.Snapshot.Sensors);
        }, cancellation);
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var genealogy = GenealogyRecord.Of(EventsFile.Read(files.Events, digest));
        var cuts = RecordedCuts.Exposures(files.Cell, genealogy, observer.Cuts(last));
        progress?.Invoke("weighing", 1, files.Values.Count);
        var answer = EvidenceAnalysis.Of(new EvidenceQuestion
        {
            Cell = files.Cell, Zone = ZoneOf(files.Cell), Genealogy = genealogy, Cuts = Kept(cuts, files), Values = files.Values, Checks = observer.Checks,
        });
        return new BoardData
        {
            Cell = files.Cell,
            Answer = answer,
            ConfigVersion = files.ConfigVersion,
            ReadingsSha256 = await HashAsync(files.Readings, cancellation),
            EventsSha256 = Convert.ToHexStringLower(digest.GetHashAndReset()),
            ResultsSha256 = files.ResultsSha256,
            From = replayed.From,
            To = replayed.To,
            Readings = replayed.Readings,
            Events = replayed.Events,
            Zone = ZoneOf(files.Cell),
        };
    }

    // What the ledger kept when a cut began wins over what a replay would have said then.
    private static IReadOnlyList<CutExposure> Kept(IReadOnlyList<CutExposure> cuts, EvidenceFiles files) => files.Frozen.Count == 0 ? cuts :
    [
        .. cuts.Select(cut => files.Frozen.GetValueOrDefault(new WorkOnMachine(cut.Step.Machine, cut.Step.Serial, cut.Step.Operation)) is { } kept
            ? cut with { Frozen = kept.ToDictionary(one => one.Key, one => one.Value, StringComparer.Ordinal) }
            : cut),
    ];

    private static async Task<ReplayResult> ReplayAsync(
        EvidenceFiles files, Action<string, double, long>? progress, Action<DateTimeOffset, CellEvent?, EventTimeLoop> seen, CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-evidence-");
        try
        {
            var result = await ReplayRun.RunAsync(
                new ReplayQuestion
                {
                    Cell = files.Cell, ConfigVersion = files.ConfigVersion, Readings = files.Readings, Events = files.Events,
                    Out = Path.Combine(folder.FullName, "replay.jsonl"), Progress = progress ?? ((_, _, _) => { }), Seen = seen, OnlyExposures = true,
                },
                cancellation);
            cancellation.ThrowIfCancellationRequested();
            return result;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static TimeZoneInfo ZoneOf(Cell cell) =>
        TimeZoneInfo.TryFindSystemTimeZoneById(cell.Description.TimeZone, out var zone) ? zone : TimeZoneInfo.Utc;

    private static async Task<string> HashAsync(string file, CancellationToken cancellation)
    {
        await using var stream = File.OpenRead(file);
        return Convert.ToHexStringLower(await SHA256.HashDataAsync(stream, cancellation));
    }
}

/// <summary>The files and values that evidence rests on.</summary>
public sealed record EvidenceFiles
{
    /// <summary>The cell.</summary>
    public required Cell Cell { get; init; }

    /// <summary>Version of its plant file.</summary>
    public required string ConfigVersion { get; init; }

    /// <summary>File of readings.</summary>
    public required string Readings { get; init; }

    /// <summary>File of events.</summary>
    public required string Events { get; init; }

    /// <summary>The inspected values.</summary>
    public required IReadOnlyList<InspectionValue> Values { get; init; }

    /// <summary>Hash of the file of results, or of each, in order.</summary>
    public required string ResultsSha256 { get; init; }

    /// <summary>Predictions that a ledger kept when cuts began, by work and feature; empty: those of the replay stand.</summary>
    public IReadOnlyDictionary<WorkOnMachine, IReadOnlyDictionary<string, Prediction>> Frozen { get; init; } =
        new Dictionary<WorkOnMachine, IReadOnlyDictionary<string, Prediction>>();
}

/// <summary>An answer with what it rests on: enough to compute every number again.</summary>
public sealed record BoardData
{
    /// <summary>The cell.</summary>
    public required Cell Cell { get; init; }

    /// <summary>The answer.</summary>
    public required EvidenceAnswer Answer { get; init; }

    /// <summary>Version of the plant file.</summary>
    public required string ConfigVersion { get; init; }

    /// <summary>Hash of the readings.</summary>
    public required string ReadingsSha256 { get; init; }

    /// <summary>Hash of the events.</summary>
    public required string EventsSha256 { get; init; }

    /// <summary>Hash of the results.</summary>
    public required string ResultsSha256 { get; init; }

    /// <summary>The first moment, or null.</summary>
    public required DateTimeOffset? From { get; init; }

    /// <summary>The last moment, or null.</summary>
    public required DateTimeOffset? To { get; init; }

    /// <summary>Number of readings.</summary>
    public required long Readings { get; init; }

    /// <summary>Number of events.</summary>
    public required long Events { get; init; }

    /// <summary>The time zone of the place.</summary>
    public required TimeZoneInfo Zone { get; init; }

    /// <summary>Version of the program.</summary>
    public static string ProgramVersion => typeof(BoardData).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";
}
