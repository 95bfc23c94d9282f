using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>/health/live</c>: the process answers. <c>/health/ready</c>: it decides for the cell, is connected and subscribed, and can keep what comes.</summary>
internal static class HealthApi
{
    public static void Map(WebApplication app)
    {
        app.MapGet("/health/live", () => TypedResults.Text("live"));
        app.MapGet("/health/ready", Results<ContentHttpResult, ProblemHttpResult> (BrokerLink link, CellLease lease, IServiceProvider services) =>
            (lease.Refusal ?? WhyNotConnected(link.State) ?? WhyHeldBack(services.GetService<InfluxReadings>()?.Health())) is { } reason
                ? TypedResults.Problem(reason, statusCode: StatusCodes.Status503ServiceUnavailable)
                : TypedResults.Text("ready"));
    }

    private static string? WhyHeldBack(InfluxHealth? health) => health is { IsFull: true }
        ? $"The spool of InfluxDB is full since {health.OldestSpooled:O}: nothing is taken from the broker, which keeps it. {health.Trouble}"
        : null;

    private static string? WhyNotConnected(BrokerState state) => state.Connected
        ? null
        : $"Not connected to the broker at {state.Host}:{state.Port} since {state.Since:O}: {state.LastError ?? "no answer yet"}";
}
