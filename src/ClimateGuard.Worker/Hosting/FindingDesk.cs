using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Takes what a technician says on the page: the same fields, limits and sentences as <c>POST /findings/{id}/outcome</c>.</summary>
internal sealed class FindingDesk(CellLoop loop, CellLease lease, WorkerPlan plan)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    /// <summary>Says it; comes back with what became of it.</summary>
    /// <param name="finding">Id of the finding.</param>
    /// <param name="fields">The fields of the event.</param>
    public async Task<string> SayAsync(string finding, IReadOnlyDictionary<string, object> fields)
    {
        if (lease.Refusal is { } refusal) return $"{refusal} Nothing was taken in.";
        var body = JsonSerializer.SerializeToUtf8Bytes(fields.Append(new("finding", finding)).ToDictionary());
        var read = EventDecoder.Decode(EventTypes.FindingOutcome, null, body, plan.CellTime.GetUtcNow());
        if (read.Event is not FindingOutcome outcome) return $"{read.Reason}. Nothing was changed.";
        if (loop.Snapshot.Air.Findings.All(known => known.Id != finding)) return "This finding was closed meanwhile. Nothing was changed.";
        try
        {
            using var waiting = new CancellationTokenSource(Patience);
            var told = (await loop.PostAsync(outcome, waiting.Token)).OfType<FindingTold>().FirstOrDefault();
            return told is null
                ? "This finding was closed meanwhile. What you found is in the ledger and changed nothing."
                : outcome.Closes ? "Closed. It is in the ledger." : "Taken in. The ranking counts with it.";
        }
        catch (OperationCanceledException)
        {
            return "The worker has not answered yet; it may still take it in. Look again before you say it once more.";
        }
    }
}
