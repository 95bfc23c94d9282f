using System.Globalization;
using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Edges.Patience;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>/health/live</c>: the process answers. <c>/health/ready</c>: it decides for the cell, is connected and subscribed, and can take what comes.</summary>
/// <remarks>A full disk and a damaged file of the history do not make it unready, since it decides all the same: they follow, a line each.</remarks>
internal static class HealthApi
{
    public static void Map(WebApplication app)
    {
        app.MapGet("/health/live", () => TypedResults.Text("live"));
        app.MapGet("/health/ready", Results<ContentHttpResult, ProblemHttpResult> (BrokerLink link, CellLease lease, IServiceProvider services) =>
            (lease.Refusal ?? WhyNotConnected(link.State) ?? WhyHeldBack(services.GetService<InfluxReadings>()?.Health())) is { } reason
                ? TypedResults.Problem(reason, statusCode: StatusCodes.Status503ServiceUnavailable)
                : TypedResults.Text(Ready(services.GetService<FullDiskReadings>(), services.GetService<SqliteReadings>())));
    }

    /// <summary>The answer of one that is ready: that word, then a line for each thing wrong with the history.</summary>
    internal static string Ready(HistoryGap? gap, IEnumerable<string> damaged)
    {
        var lines = new List<string> { "ready" };
        if (gap is not null)
        {
            lines.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"The disk of the store is full since {gap.Since:O}: {gap.Readings} readings were judged and used, but not kept. Free some space there; keeping goes on by itself."));
        }

        lines.AddRange(damaged.Select(path =>
            $"A file of the history was damaged and now lies at {path}; what it holds is missing from charts. Keep it, and put back the one of the last backup while the worker is stopped."));
        return string.Join('\n', lines);
    }

    private static string Ready(FullDiskReadings? keeping, SqliteReadings? readings) =>
        Ready(keeping?.Gap, [.. new[] { readings?.Opening.SetAside }.OfType<string>(), .. readings?.Health().Damaged ?? []]);

    private static string? WhyHeldBack(InfluxHealth? health) => health is { IsFull: true }
        ? $"The spool of InfluxDB is full since {health.OldestSpooled:O}: nothing is taken from the broker, which keeps it. {health.Trouble}"
        : null;

    private static string? WhyNotConnected(BrokerState state) => state.Connected
        ? null
        : $"Not connected to the broker at {state.Host}:{state.Port} since {state.Since:O}: {state.LastError ?? "no answer yet"}";
}
