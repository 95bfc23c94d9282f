using ClimateGuard.Edges.Json;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /score?from&amp;to</c>: how right the holds were, what they cost, what they missed, beside plain air limits and no tool at all.</summary>
internal static class ScoreApi
{
    public static void Map(RouteGroupBuilder api) => api.MapGet("/score", ReadAsync)
        .WithSummary("The scoreboard of [from, to), without them of the last 30 days; from and to as epoch ms or RFC 3339.");

    private static async Task<Results<Utf8ContentHttpResult, ProblemHttpResult>> ReadAsync(
        string? from, string? to, ScoreBook book, CancellationToken cancellation)
    {
        var (begin, end) = (from is null ? null : TimeInQuery.Of(from), to is null ? null : TimeInQuery.Of(to));
        if ((from is not null && begin is null) || (to is not null && end is null) || begin >= end)
        {
            return Problem.BadRequest($"from={from}, to={to}: two times, from before to, {Rfc3339.Allowed}.");
        }

        var (report, air) = await book.AtAsync(begin, end, cancellation);
        return TypedResults.Text(ScoreJson.ToUtf8(report, air), "application/json");
    }
}
