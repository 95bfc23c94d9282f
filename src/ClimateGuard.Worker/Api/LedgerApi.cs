using System.Text.Json;
using ClimateGuard.Watch;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary>
/// <c>GET /ledger?kind&amp;machine&amp;most</c>: the newest lines of what was decided, newest first; <c>GET /ledger?after&amp;most</c>: those after a
/// number, in order. Each with its number and hash.
/// </summary>
internal static class LedgerApi
{
    private const int UsualLines = 100;

    public static void Map(RouteGroupBuilder api) => api.MapGet("/ledger", ReadAsync)
        .WithSummary("The newest lines of the ledger, newest first, by kind and machine; or with `after` those after that number, in order.");

    private static async Task<Results<Ok<IEnumerable<Line>>, ProblemHttpResult>> ReadAsync(
        string? kind, string? machine, long? after, int? most, ILedgerStore ledger, CancellationToken cancellation)
    {
        if (most is < 1 or > LedgerReading.MostLines)
        {
            return Problem.BadRequest($"most={most}: 1 to {LedgerReading.MostLines} are allowed.");
        }

        if (kind is not null && !LedgerKinds.All.Contains(kind))
        {
            return Problem.BadRequest($"kind={kind}: one of {string.Join(", ", LedgerKinds.All)} is allowed.");
        }

        if (after is < 0 || (after is not null && (kind ?? machine) is not null))
        {
            return Problem.BadRequest($"after={after}: a number from 0 is allowed, without kind and machine.");
        }

        var entries = after is { } seq
            ? await ledger.ReadAsync(seq, most ?? UsualLines, cancellation)
            : await ledger.NewestAsync(kind, machine, most ?? UsualLines, cancellation);
        return TypedResults.Ok(entries.Select(Of));
    }

    private static Line Of(LedgerEntry entry) => new(
        entry.Seq, entry.Line.Time, entry.Line.Kind, entry.Line.Machine, Content(entry.Line.Json), entry.Hash);

    /// <summary>A content that something else than a worker wrote may be no JSON; then it is shown as text.</summary>
    private static JsonElement Content(string json) => LedgerLine.IsOneObjectOnOneLine(json)
        ? JsonSerializer.Deserialize<JsonElement>(json)
        : JsonSerializer.SerializeToElement(json);

    /// <summary>One line.</summary>
    internal sealed record Line(long Seq, DateTimeOffset Time, string Kind, string? Machine, JsonElement Content, string Hash);
}
