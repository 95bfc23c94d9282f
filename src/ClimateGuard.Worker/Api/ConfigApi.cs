using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /config</c>: which version of the plant file is in force, and the one that was refused.</summary>
internal static class ConfigApi
{
    public static void Map(RouteGroupBuilder api) => api.MapGet("/config", (CellLoop loop) => Of(loop.Snapshot, loop.Plant))
        .WithSummary("The version of the plant file in force, since when, and what is wrong with a changed file that was refused.");

    private static ConfigItem Of(CellSnapshot snapshot, PlantVersion plant) => new(
        snapshot.ConfigVersion, snapshot.ConfigSince, plant.File, plant.By,
        snapshot.RefusedPlant is { } refused ? new RefusedItem(refused.Version, refused.Problems, refused.ProblemsLeftOut) : null);

    /// <summary>What is in force; <c>refused</c> is null when the file is good.</summary>
    internal sealed record ConfigItem(string Version, DateTimeOffset Since, string File, string By, RefusedItem? Refused);

    /// <summary>A refused file.</summary>
    internal sealed record RefusedItem(string Version, IReadOnlyList<string> Problems, int ProblemsLeftOut);
}
