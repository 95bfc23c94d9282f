using System.Text.Json;
using ClimateGuard.Watch;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /ledger?kind&amp;machine&amp;most</c>: the newest lines of what was decided.</summary>
internal static class LedgerApi
{
    private const int UsualLines = 100;
    private const int MostLines = 10_000;

    public static void Map(RouteGroupBuilder api) => api.MapGet("/ledger", ReadAsync)
        .WithSummary("The newest lines of the ledger, newest first; by kind and machine.");

    private static async Task<Results<Ok<IEnumerable<Line>>, ProblemHttpResult>> ReadAsync(
        string? kind, string? machine, int? most, ILedgerStore ledger, CancellationToken cancellation)
    {
        if (most is < 1 or > MostLines)
        {
            return Problem.BadRequest($"most={most}: 1 to {MostLines} are allowed.");
        }

        var lines = await ledger.NewestAsync(kind, machine, most ?? UsualLines, cancellation);
        return TypedResults.Ok(lines.Select(line => new Line(line.Time, line.Kind, line.Machine, JsonSerializer.Deserialize<JsonElement>(line.Json))));
    }

    /// <summary>One line.</summary>
    internal sealed record Line(DateTimeOffset Time, string Kind, string? Machine, JsonElement Content);
}
