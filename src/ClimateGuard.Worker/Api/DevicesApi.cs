using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>/results/devices</c>: the saved mappings of inspection devices.</summary>
internal static class DevicesApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/results/devices", (DeviceShelf shelf) => TypedResults.Ok(shelf.Names())).WithSummary("The devices whose mapping is saved.");
        api.MapPut("/results/devices/{device}", SaveAsync).WithSummary("Saves the mapping of a device: how its files are read.");
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> SaveAsync(string device, HttpRequest request, DeviceShelf shelf, CancellationToken cancellation)
    {
        var body = await Body.ReadAsync(request, cancellation);
        var problems = shelf.Save(device, body.Span);
        return problems.Count == 0 ? TypedResults.NoContent() : Problem.BadRequest($"{string.Join("; ", problems)}. Nothing was saved.");
    }
}
