using ClimateGuard.Edges.Mqtt;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>/health/live</c>: the process answers. <c>/health/ready</c>: it is connected and subscribed.</summary>
internal static class HealthApi
{
    public static void Map(WebApplication app)
    {
        app.MapGet("/health/live", () => TypedResults.Text("live"));
        app.MapGet("/health/ready", Results<ContentHttpResult, ProblemHttpResult> (BrokerLink link) => link.State is { Connected: true }
            ? TypedResults.Text("ready")
            : TypedResults.Problem(
                $"Not connected to the broker at {link.State.Host}:{link.State.Port} since {link.State.Since:O}: {link.State.LastError ?? "no answer yet"}",
                statusCode: StatusCodes.Status503ServiceUnavailable));
    }
}
