using System.Text.Json;
using System.Text.Json.Nodes;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>Takes in what a person enters on a page: read, judged, kept and refused as the same event would be over HTTP.</summary>
internal sealed class EntryDesk(CellLoop loop, CellLease lease, WorkerPlan plan)
{
    /// <summary>Enters an event at a machine; null when it was taken and decided on, else why not.</summary>
    public async Task<string?> EnterAsync(string type, string machine, JsonObject fields)
    {
        if (lease.Refusal is { } refusal)
        {
            return $"{refusal} Nothing was taken in.";
        }

        var read = EventDecoder.Decode(type, machine, JsonSerializer.SerializeToUtf8Bytes(fields), plan.CellTime.GetUtcNow());
        if (read.Event is not { } happened)
        {
            return $"{read.Reason}. Nothing was taken in.";
        }

        await loop.PostAsync(happened, CancellationToken.None);
        return null;
    }
}
