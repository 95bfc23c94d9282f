using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary>
/// <c>POST /results</c>: inspection results as CSV, the whole file or nothing, and each file once. Its values are lines of the ledger, for the
/// scoreboard; they score the overrides they belong to, once for each override.
/// </summary>
internal static class ResultsApi
{
    public static void Map(RouteGroupBuilder api) => api.MapPost("/results", TakeAsync)
        .WithSummary("Inspection results as CSV, each file once; for the scoreboard, and scores the overrides they belong to.");

    // Two uploads of the same file at once must not both find that it is new.
    private static readonly SemaphoreSlim OneAtATime = new(1, 1);

    private static async Task<Results<Ok<Taken>, ProblemHttpResult>> TakeAsync(
        HttpRequest request, CellLoop loop, ILedgerStore ledger, WorkerPlan plan, CancellationToken cancellation)
    {
        var body = await Body.ReadAsync(request, cancellation);
        await OneAtATime.WaitAsync(cancellation);
        try
        {
            return await KeepAsync(body, loop, ledger, plan, cancellation);
        }
        finally
        {
            OneAtATime.Release();
        }
    }

    private static async Task<Results<Ok<Taken>, ProblemHttpResult>> KeepAsync(
        ReadOnlyMemory<byte> body, CellLoop loop, ILedgerStore ledger, WorkerPlan plan, CancellationToken cancellation)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(body.Span));
        if (await CameBeforeAsync(hash, ledger, cancellation) is { } before)
        {
            return Problem.Conflict($"This file came in before, at {Rfc3339.Text(before)}. Nothing was imported.");
        }

        var text = Encoding.UTF8.GetString(body.Span);
        var (values, problems) = ResultsFileReader.Parse(text, loop.Snapshot.Cell);
        if (problems.Count > 0)
        {
            return Problem.BadRequest($"{string.Join("; ", problems)}. Nothing was imported.");
        }

        var (overrides, scored) = await KeptAsync(ledger, cancellation);
        OverrideScore[] scores = [.. OverrideScore.Of(overrides, values).Where(score => !scored.Contains((score.Machine, score.Serial, score.Operation)))];
        var now = plan.CellTime.GetUtcNow();
        await ledger.AppendAsync(
            [
                .. ResultJson.Lines(values, hash, now),
                .. scores.Select(score => new LedgerLine(now, LedgerKinds.Score, score.Machine, Encoding.UTF8.GetString(PermitJson.ToUtf8(score)))),
            ],
            cancellation);
        return TypedResults.Ok(new Taken(values.Count, scores.Length, scores.Count(score => score.Right)));
    }

    private static async Task<DateTimeOffset?> CameBeforeAsync(string hash, ILedgerStore ledger, CancellationToken cancellation)
    {
        const int page = 1_000;
        IReadOnlyList<LedgerEntry> found;
        var before = long.MaxValue;
        do
        {
            found = await ledger.ReadBackAsync(LedgerKinds.ResultFile, null, before, page, cancellation);
            if (found.FirstOrDefault(entry => ResultJson.FileOf(entry.Line) == hash) is { } same)
            {
                return same.Line.Time;
            }

            before = found.Count > 0 ? found[^1].Seq : before;
        }
        while (found.Count == page);
        return null;
    }

    /// <summary>The overrides that were in force, oldest first, and the work whose override has a score already.</summary>
    private static async Task<(List<(string Machine, ActiveOverride Override)> Overrides, HashSet<(string, string, string)> Scored)> KeptAsync(
        ILedgerStore ledger, CancellationToken cancellation)
    {
        const int newest = 10_000;
        var overrides = new List<(string Machine, ActiveOverride Override)>();
        foreach (var entry in (await ledger.NewestAsync(LedgerKinds.Override, null, newest, cancellation)).Reverse())
        {
            if (PermitJson.ReadOverride(entry.Line) is { } taken)
            {
                overrides.Add(taken);
            }
        }

        var scored = new HashSet<(string, string, string)>();
        foreach (var entry in await ledger.NewestAsync(LedgerKinds.Score, null, newest, cancellation))
        {
            using var content = JsonDocument.Parse(entry.Line.Json);
            if (content.RootElement.TryGetProperty("override", out _))
            {
                scored.Add((Text(content, "machine"), Text(content, "serial"), Text(content, "operation")));
            }
        }

        return (overrides, scored);
    }

    private static string Text(JsonDocument content, string name) => content.RootElement.GetProperty(name).GetString() ?? "";

    /// <summary>What was taken in.</summary>
    internal sealed record Taken(int Values, int OverridesScored, int OverridesRight);
}
