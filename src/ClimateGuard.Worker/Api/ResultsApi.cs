using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary>
/// <c>POST /results</c>: inspection results as CSV, the whole file or nothing. For now they score the overrides they belong to; each score is a
/// line of the ledger, once for each override.
/// </summary>
internal static class ResultsApi
{
    public static void Map(RouteGroupBuilder api) => api.MapPost("/results", TakeAsync)
        .WithSummary("Inspection results as CSV; scores the overrides they belong to.");

    private static async Task<Results<Ok<Taken>, ProblemHttpResult>> TakeAsync(
        HttpRequest request, CellLoop loop, ILedgerStore ledger, WorkerPlan plan, CancellationToken cancellation)
    {
        var text = Encoding.UTF8.GetString((await Body.ReadAsync(request, cancellation)).Span);
        var (values, problems) = ResultsFileReader.Parse(text, loop.Snapshot.Cell);
        if (problems.Count > 0)
        {
            return Problem.BadRequest($"{string.Join("; ", problems)}. Nothing was imported.");
        }

        var (overrides, scored) = await KeptAsync(ledger, cancellation);
        OverrideScore[] scores = [.. OverrideScore.Of(overrides, values).Where(score => !scored.Contains((score.Machine, score.Serial, score.Operation)))];
        await ledger.AppendAsync(
            [.. scores.Select(score => new LedgerLine(plan.CellTime.GetUtcNow(), LedgerKinds.Score, score.Machine, Encoding.UTF8.GetString(PermitJson.ToUtf8(score))))],
            cancellation);
        return TypedResults.Ok(new Taken(values.Count, scores.Length, scores.Count(score => score.Right)));
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
