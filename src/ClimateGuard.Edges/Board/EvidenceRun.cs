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
        var question = new ReplayQuestion
        {
            Cell = files.Cell, ConfigVersion = files.ConfigVersion, Readings = files.Readings, Events = files.Events, Out = "", Progress = progress ?? ((_, _, _) => { }),
        };
        using var input = await ReplayInput.ReadAsync(question, cancellation);
        var onlyExposures = input.Span is { } span && span.To - span.From > files.OutlooksUpTo;
        var (exposures, proceedings) = onlyExposures ? Followed(question, input, cancellation) : Lived(question, input, cancellation);
        var genealogy = GenealogyRecord.Of(input.Events);
        var cuts = RecordedCuts.Exposures(files.Cell, genealogy, exposures.Cuts);
        progress?.Invoke("weighing", 1, files.Values.Count);
        var answer = EvidenceAnalysis.Of(new EvidenceQuestion
        {
            Cell = files.Cell, Zone = ZoneOf(files.Cell), Genealogy = genealogy, Cuts = Kept(cuts, files), Values = files.Values, Checks = exposures.Checks,
        });
        return new BoardData
        {
            Cell = files.Cell,
            Answer = answer,
            Genealogy = genealogy,
            Proceedings = proceedings,
            ConfigVersion = files.ConfigVersion,
            ReadingsSha256 = await HashAsync(files.Readings, cancellation),
            EventsSha256 = input.EventsSha256,
            ResultsSha256 = files.ResultsSha256,
            From = input.Span?.From,
            To = input.Span?.To,
            Readings = input.Count,
            Events = input.Events.Count,
            OnlyExposures = onlyExposures,
            Zone = ZoneOf(files.Cell),
        };
    }

    // What the ledger kept when a cut began wins over what the replay says was known then.
    private static IReadOnlyList<CutExposure> Kept(IReadOnlyList<CutExposure> cuts, EvidenceFiles files) => files.Frozen.Count == 0 ? cuts :
    [
        .. cuts.Select(cut => files.Frozen.GetValueOrDefault(new WorkOnMachine(cut.Step.Machine, cut.Step.Serial, cut.Step.Operation)) is { } kept
            ? cut with { Frozen = Merged(cut.Frozen, kept) }
            : cut),
    ];

    private static Dictionary<string, Prediction> Merged(IReadOnlyDictionary<string, Prediction> replayed, IReadOnlyDictionary<string, Prediction> kept)
    {
        var merged = new Dictionary<string, Prediction>(replayed, StringComparer.Ordinal);
        foreach (var (feature, prediction) in kept)
        {
            merged[feature] = prediction;
        }

        return merged;
    }

    private static (Exposures Exposures, Proceedings Proceedings) Followed(ReplayQuestion question, ReplayInput input, CancellationToken cancellation)
    {
        var proceedings = new Proceedings();
        var exposures = ExposureReplay.Run(question, input, cancellation);
        proceedings.Take(exposures.Decisions);
        return (exposures, proceedings);
    }

    private static (Exposures Exposures, Proceedings Proceedings) Lived(ReplayQuestion question, ReplayInput input, CancellationToken cancellation)
    {
        var (observer, proceedings, last) = (new CutObserver(question.Cell), new Proceedings(), DateTimeOffset.MinValue);
        var folder = Directory.CreateTempSubdirectory("climateguard-evidence-");
        try
        {
            ReplayRun.Run(question with
            {
                Out = Path.Combine(folder.FullName, "replay.jsonl"),
                Seen = (moment, happened, decisions, loop) =>
                {
                    last = moment;
                    proceedings.Take(decisions);
                    observer.Take(moment, happened, loop.Remembered(), zone => loop.VerticalGradient(zone, moment));
                },
            }, input, cancellation);
            cancellation.ThrowIfCancellationRequested();
            return (new Exposures(observer.Cuts(last), observer.Checks, []), proceedings);
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
