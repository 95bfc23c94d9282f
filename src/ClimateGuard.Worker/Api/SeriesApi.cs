using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /series?sensor&amp;from&amp;to&amp;points</c>: the readings of one sensor, raw where they fit into <c>points</c>.</summary>
internal static class SeriesApi
{
    private const int MostPoints = 20_000;
    private const int UsualPoints = 1000;

    public static void Map(RouteGroupBuilder api) => api.MapGet("/series", ReadAsync)
        .WithSummary("Readings of one sensor in [from, to); from and to as epoch ms or RFC 3339; at most `points`, minima and maxima kept.");

    private static async Task<Results<Ok<Series>, ProblemHttpResult>> ReadAsync(
        string? sensor, string? from, string? to, int? points, CellLoop loop, IReadingStore store, CancellationToken cancellation)
    {
        var cell = loop.Snapshot.Cell;
        if (sensor is null || cell.IndexOfSensor(sensor) < 0)
        {
            return Problem.NotFound($"There is no sensor {sensor} in the plant file; {NearestNames.Hint(sensor ?? "", [.. cell.Sensors.Select(s => s.Id)])}.");
        }

        var end = to is null ? loop.Snapshot.Time.AddSeconds(1) : TimeInQuery.Of(to);
        var begin = from is null ? end?.AddHours(-8) : TimeInQuery.Of(from);
        if (begin is not { } first || end is not { } last || first >= last)
        {
            return Problem.BadRequest($"from={from}, to={to}: two times are needed, from before to, {Rfc3339.Allowed}.");
        }

        if (points is < 2 or > MostPoints)
        {
            return Problem.BadRequest($"points={points}: 2 to {MostPoints} are allowed.");
        }

        try
        {
            var found = await store.ReadAsync(sensor, first, last, points ?? UsualPoints, cancellation);
            return TypedResults.Ok(new Series(sensor, found.Select(point => new double[] { point.EpochMilliseconds, point.Value })));
        }
        catch (StoreUnavailableException unavailable)
        {
            return Problem.Unavailable(unavailable.Message);
        }
    }

    /// <summary>A series: points of [epoch ms, value] in time order.</summary>
    internal sealed record Series(string Sensor, IEnumerable<double[]> Points);
}
