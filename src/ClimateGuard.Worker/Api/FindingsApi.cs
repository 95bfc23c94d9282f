using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /findings</c>: what is wrong with the air and why. <c>POST /findings/{id}/outcome</c>: what a technician found.</summary>
internal static class FindingsApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/findings", (CellLoop loop) => Json(AirJson.Findings(loop.Snapshot.Air, loop.Snapshot.Cell)))
            .WithSummary("The findings that stand and those closed last, and for each air handler all causes ranked with the next best check.");
        api.MapPost("/findings/{id}/outcome", TakeAsync).WithSummary(
            "What was found: {by, seen, check?} answers a check (check: F01 to F34, without it that of the finding); {by, close: true, verified?, fixedBy?} closes it.");
    }

    private static async Task<Results<Utf8ContentHttpResult, ProblemHttpResult>> TakeAsync(
        string id, HttpRequest http, CellLoop loop, WorkerPlan plan, CancellationToken cancellation)
    {
        var read = EventDecoder.Decode(EventTypes.FindingOutcome, null, await Body.WithAsync(http, cancellation, ("finding", id)), plan.CellTime.GetUtcNow());
        if (read.Event is not FindingOutcome outcome)
        {
            return Problem.BadRequest($"{read.Reason}. Nothing was changed.");
        }

        var air = loop.Snapshot.Air;
        if (air.Findings.All(finding => finding.Id != id))
        {
            return air.Closed.FirstOrDefault(finding => finding.Id == id) is { } closed
                ? Problem.Conflict($"Finding {id} is closed already ({closed.ClosedBecause}). Nothing was changed.")
                : Problem.NotFound($"There is no finding {id} that stands; {NearestNames.Hint(id, [.. air.Findings.Select(finding => finding.Id)])}. Nothing was changed.");
        }

        var told = (await loop.PostAsync(outcome, cancellation)).OfType<FindingTold>().FirstOrDefault();
        return told is null
            ? Problem.Conflict($"Finding {id} was closed meanwhile. What you found is in the ledger and changed nothing.")
            : Json(AirJson.Finding(told.Finding, loop.Snapshot.Cell));
    }

    private static Utf8ContentHttpResult Json(byte[] utf8) => TypedResults.Text(utf8, "application/json");
}
