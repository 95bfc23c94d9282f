using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /machines</c> and <c>GET /machines/{id}/outlook</c>.</summary>
internal static class MachinesApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/machines", (CellLoop loop) => loop.Snapshot.Machines.Select(machine => Of(loop.Snapshot.Cell.Id, machine)))
            .WithSummary("The machines with the level of each.");
        api.MapGet("/machines/{id}/outlook", Results<ContentHttpResult, ProblemHttpResult> (string id, CellLoop loop) =>
            Find(loop, id) is { } machine
                ? TypedResults.Text(Encoding.UTF8.GetString(OutlookJson.ToUtf8(machine.Outlook)), "application/json", Encoding.UTF8)
                : Problem.NotFound(Unknown(loop, id)))
            .WithSummary("The outlook of one machine, as it is published on MQTT.");
    }

    public static MachineSnapshot? Find(CellLoop loop, string id) => loop.Snapshot.Machines.FirstOrDefault(machine => machine.Machine.Id == id);

    public static string Unknown(CellLoop loop, string id) =>
        $"There is no machine {id} in the plant file; {NearestNames.Hint(id, [.. loop.Snapshot.Cell.Machines.Select(m => m.Id)])}.";

    private static MachineItem Of(string cell, MachineSnapshot machine) => new(
        machine.Machine.Id,
        cell,
        machine.Outlook.Level.Word(),
        machine.Machine.Kind,
        machine.Machine.Zone,
        machine.Outlook.Serial,
        machine.Outlook.Part,
        machine.Outlook.Operation,
        machine.Outlook.Worst?.Feature,
        machine.Outlook.Action,
        machine.Outlook.Seq,
        machine.Outlook.IssuedAt,
        machine.Outlook.ValidUntil);

    /// <summary>One machine.</summary>
    internal sealed record MachineItem(
        string Id, string Cell, string Level, string Kind, string Zone, string Serial, string Part, string Operation,
        string? Feature, string Action, long Seq, DateTimeOffset IssuedAt, DateTimeOffset ValidUntil);
}
