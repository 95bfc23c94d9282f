using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /forecast?zone</c>: what the air of the zones will be, and how well that held so far.</summary>
internal static class ForecastApi
{
    public static void Map(RouteGroupBuilder api) => api.MapGet("/forecast", Read)
        .WithSummary("The air of each zone 10 min to 4 h ahead with its 90 % interval and the rung that says so, and how well each regime and horizon held; zone=ID for one.");

    private static Results<Utf8ContentHttpResult, ProblemHttpResult> Read(string? zone, CellLoop loop)
    {
        var zones = loop.Snapshot.Air.Zones;
        if (zone is null) return Json(zones);
        return zones.FirstOrDefault(known => known.Zone == zone) is { } one
            ? Json([one])
            : Problem.NotFound($"There is no zone {zone}; {NearestNames.Hint(zone, [.. zones.Select(known => known.Zone)])}.");
    }

    private static Utf8ContentHttpResult Json(IReadOnlyList<ZoneSnapshot> zones) => TypedResults.Text(ForecastJson.ToUtf8(zones), "application/json");
}
