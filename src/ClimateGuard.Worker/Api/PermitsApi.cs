using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary>
/// <c>POST /permits</c>: asks whether a finish cut may start. <c>GET /permits/{id}</c>: what became of a permit or an answer.
/// <c>POST /permits/{id}/override</c>: a person takes the responsibility. The id is a permit id or a request id.
/// </summary>
internal static class PermitsApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapPost("/permits", AskAsync).WithSummary("Asks whether a finish cut may start; answered at once from the present state.");
        api.MapGet("/permits/{id}", Read).WithSummary("What became of a permit, by permit id or request id.");
        api.MapPost("/permits/{id}/override", OverrideAsync)
            .WithSummary("A person takes the responsibility: {by, approvedBy?, reason, until}; a critical part needs two persons.");
    }

    private static async Task<Results<ContentHttpResult, ProblemHttpResult>> AskAsync(
        HttpRequest http, CellLoop loop, WorkerPlan plan, CancellationToken cancellation)
    {
        var read = EventDecoder.Decode(EventTypes.PermitRequest, null, await Body.ReadAsync(http, cancellation), plan.CellTime.GetUtcNow());
        if (read.Event is not PermitRequested request)
        {
            return Problem.BadRequest($"{read.Reason}. Nothing was answered and no permit was given.");
        }

        if (MachinesApi.Find(loop, request.Machine) is null)
        {
            return Problem.NotFound($"{MachinesApi.Unknown(loop, request.Machine)} No permit was given.");
        }

        var decisions = await loop.PostAsync(request, cancellation);
        if (plan.Shadow)
        {
            return TypedResults.Problem(
                "This worker runs in shadow mode: nothing is answered to machines and no permit holds. What would have been answered is in the ledger.",
                statusCode: StatusCodes.Status503ServiceUnavailable);
        }

        var answer = decisions.OfType<RequestAnswered>().FirstOrDefault()?.Answer;
        return answer is null
            ? TypedResults.Problem("The request was taken in but not answered; ask again with the same request id.", statusCode: StatusCodes.Status503ServiceUnavailable)
            : answer.ReasonCode == ReasonCodes.IdReused
                ? TypedResults.Problem($"Request id {request.RequestId} came before with another content; ask with a new one. No permit was given.", statusCode: StatusCodes.Status409Conflict)
                : Json(PermitJson.ToUtf8(answer));
    }

    private static Results<ContentHttpResult, ProblemHttpResult> Read(string id, CellLoop loop)
    {
        foreach (var machine in loop.Snapshot.Machines)
        {
            if (machine.Permits.Newest is { } newest && newest.Id == id)
            {
                return Json(PermitJson.ToUtf8(newest, loop.Snapshot.Time));
            }

            if (Find(machine, id) is { } answered)
            {
                return answered.Answer.Permit is { } permit && answered.Answer.RequestId != id
                    ? Json(PermitJson.ToUtf8(permit with { Fate = PermitFate.Superseded }, loop.Snapshot.Time))
                    : Json(PermitJson.ToUtf8(answered.Answer));
            }
        }

        return Problem.NotFound($"There is no permit or request {id} among the newest of any machine; the ledger has all of them.");
    }

    private static async Task<Results<ContentHttpResult, ProblemHttpResult>> OverrideAsync(
        string id, HttpRequest http, CellLoop loop, WorkerPlan plan, CancellationToken cancellation)
    {
        var answered = loop.Snapshot.Machines.Select(machine => Find(machine, id)).FirstOrDefault(found => found is not null)?.Answer;
        if (answered is null)
        {
            return Problem.NotFound($"There is no permit or request {id} among the newest of any machine. Nothing was changed.");
        }

        var read = EventDecoder.Decode(EventTypes.Override, answered.Machine, await Body.WithAsync(
            http, cancellation, ("serial", answered.Serial), ("operation", answered.Operation)), plan.CellTime.GetUtcNow());
        if (read.Event is not { } happened)
        {
            return Problem.BadRequest($"{read.Reason}. Nothing was changed.");
        }

        var taken = (await loop.PostAsync(happened, cancellation)).OfType<OverrideTaken>().First();
        return taken.Override is null ? Problem.BadRequest($"{taken.Refused}. Nothing was changed.") : Json(PermitJson.ToUtf8(taken));
    }

    private static AnsweredRequest? Find(MachineSnapshot machine, string id) =>
        machine.Permits.Answers.LastOrDefault(answered => answered.Answer.RequestId == id || answered.Answer.Permit?.Id == id);

    private static ContentHttpResult Json(byte[] utf8) => TypedResults.Text(Encoding.UTF8.GetString(utf8), "application/json", Encoding.UTF8);
}
