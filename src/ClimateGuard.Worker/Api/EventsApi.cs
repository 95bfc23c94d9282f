using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary>
/// <c>POST /events</c>, <c>POST /measurements</c>, <c>POST /machines/{id}/job</c>: the events of the MQTT topics by HTTP. Each answers when the
/// decisions that follow from it are in the ledger.
/// </summary>
internal static class EventsApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapPost("/events", (HttpRequest request, CellLoop loop, WorkerPlan plan, CancellationToken cancellation) =>
            TakeAsync(request, loop, plan, null, null, cancellation))
            .WithSummary("Any event: a JSON object with `type` and its fields.");
        api.MapPost("/measurements", (HttpRequest request, CellLoop loop, WorkerPlan plan, CancellationToken cancellation) =>
            TakeAsync(request, loop, plan, EventTypes.Measurement, null, cancellation))
            .WithSummary("A re-probe, span probe or contact temperature; names its machine.");
        api.MapPost("/machines/{id}/job", (string id, HttpRequest request, CellLoop loop, WorkerPlan plan, CancellationToken cancellation) =>
            TakeAsync(request, loop, plan, EventTypes.Job, id, cancellation))
            .WithSummary("The part now on the machine; an empty serial unloads it.");
    }

    private static async Task<Results<Accepted<Taken>, ProblemHttpResult>> TakeAsync(
        HttpRequest request, CellLoop loop, WorkerPlan plan, string? type, string? machine, CancellationToken cancellation)
    {
        var bytes = await Body.ReadAsync(request, cancellation);
        var now = plan.CellTime.GetUtcNow();
        var read = type is null ? EventDecoder.DecodeBody(bytes, now) : EventDecoder.Decode(type, machine, bytes, now);
        if (read.Event is not { } happened)
        {
            return Problem.BadRequest($"{read.Reason}. Nothing was changed.");
        }

        if (happened is MachineEvent atMachine && MachinesApi.Find(loop, atMachine.Machine) is null)
        {
            return Problem.NotFound($"{MachinesApi.Unknown(loop, atMachine.Machine)} Nothing was changed.");
        }

        await loop.PostAsync(happened, cancellation);
        return TypedResults.Accepted((string?)null, new Taken(EventJson.TypeOf(happened), happened.Time));
    }

    /// <summary>What was taken in.</summary>
    internal sealed record Taken(string Type, DateTimeOffset Time);
}
