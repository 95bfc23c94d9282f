using System.Security.Cryptography;
using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Replay;

/// <summary>Replays the same files under two cells and compares what was said.</summary>
public static class PolicyTrial
{
    /// <summary>Tries.</summary>
    /// <param name="question">The files, with the cell and version of the first policy; what it says about the output is not used.</param>
    /// <param name="other">The cell with the other policy.</param>
    /// <param name="otherVersion">Its version, another than the first.</param>
    /// <param name="results">Inspected values, for both.</param>
    /// <param name="cancellation">Stops.</param>
    /// <returns>The comparison with the span of the files.</returns>
    /// <exception cref="Files.UnreadableFileException">A file cannot be used.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static async Task<(PolicyComparison Comparison, DateTimeOffset From, DateTimeOffset To)> RunAsync(
        ReplayQuestion question, Cell other, string otherVersion, IReadOnlyList<InspectionValue> results, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(results);
        var folder = Directory.CreateTempSubdirectory("climateguard-policy-");
        try
        {
            var first = question with { Out = Path.Combine(folder.FullName, "first.jsonl") };
            var second = question with { Cell = other, ConfigVersion = otherVersion, Out = Path.Combine(folder.FullName, "second.jsonl") };
            var told = await ReplayRun.RunAsync(first, cancellation);
            await ReplayRun.RunAsync(second, cancellation);
            cancellation.ThrowIfCancellationRequested();
            var (from, to) = (told.From ?? DateTimeOffset.UnixEpoch, told.To?.AddMinutes(1) ?? DateTimeOffset.UnixEpoch.AddMinutes(1));
            ScoreFact[] cuts = [.. Cuts(question.Events)];
            ScoreFact[] inspected = [.. results.Select(value => new ValueInspected(to.AddTicks(-1), value.Machine, false, value))];
            return (PolicyComparison.Of(Facts(first, cuts, inspected), Facts(second, cuts, inspected)), from, to);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    // A cut stands before what is said at its moment: that was said because of it.
    private static IReadOnlyList<ScoreFact> Facts(ReplayQuestion replayed, ScoreFact[] cuts, ScoreFact[] inspected) =>
    [
        .. cuts.Concat(File.ReadLines(replayed.Out).Select(Line).Select(line => ScoreLines.Of(line, replayed.Cell)).OfType<ScoreFact>()).OrderBy(fact => fact.Time),
        .. inspected,
    ];

    private static LedgerLine Line(string text)
    {
        using var json = JsonDocument.Parse(text);
        var root = json.RootElement;
        return new LedgerLine(root.GetProperty("time").GetDateTimeOffset(), root.Text("kind"), root.Text("machine") is { Length: > 0 } machine ? machine : null, text);
    }

    private static IEnumerable<CutBegan> Cuts(string? events)
    {
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        return events is null ? [] :
        [
            .. EventsFile.Read(events, digest).OfType<CutMoved>().Where(cut => cut.Started)
                .Select(cut => new CutBegan(cut.Time, cut.Machine, false, new WorkOnMachine(cut.Machine, cut.Serial, cut.Operation))),
        ];
    }
}
