using System.Globalization;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /room?zone&amp;machineKw</c>: each zone as a room, what is known of it, and what it answers.</summary>
internal static class RoomApi
{
    /// <summary>The most power that one more machine may have, kW.</summary>
    public const double MostKilowatts = 1000;

    public static void Map(RouteGroupBuilder api) => api.MapGet("/room", ReadAsync).WithSummary(
        "Each zone as a room, from the last seven days that are over: parameters with intervals and what is not known, recovery, cooling left, a day with the hall 10 K warmer, "
        + "the hours that set-backs cost; machineKw=14 asks for one more machine. The first question of a day reads the history and takes a while.");

    private static async Task<Results<Utf8ContentHttpResult, ProblemHttpResult>> ReadAsync(
        string? zone, string? machineKw, CellLoop loop, RoomBook book, CancellationToken cancellation)
    {
        double? kilowatts = null;
        if (machineKw is not null)
        {
            if (!double.TryParse(machineKw, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var asked) || asked > MostKilowatts)
                return Problem.BadRequest($"machineKw={machineKw}: a power in kW from 0 to {MostKilowatts.ToString(CultureInfo.InvariantCulture)} is allowed, such as 14.5.");
            kilowatts = asked;
        }

        var zones = loop.Snapshot.Cell.Zones;
        if (zone is not null && zones.All(known => known.Id != zone))
            return Problem.NotFound($"There is no zone {zone}; {NearestNames.Hint(zone, [.. zones.Select(known => known.Id)])}.");
        try
        {
            var today = await book.TodayAsync(cancellation);
            var rooms = today.Rooms.Where(room => zone is null || room.Zone.Id == zone);
            return TypedResults.Text(
                RoomJson.ToUtf8(today.Today, [.. rooms.Select(room => (room, RoomAnswers.Of(room, today.Shifts, kilowatts)))]), "application/json");
        }
        catch (Exception failure) when (failure is StoreUnavailableException or IOException)
        {
            return Problem.Unavailable($"The history could not be read: {failure.Message.TrimEnd('.')}. Ask again later.");
        }
    }
}
