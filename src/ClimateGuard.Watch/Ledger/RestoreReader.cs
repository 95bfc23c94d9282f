using System.Runtime.CompilerServices;
using System.Text;
using System.Text.Json;

namespace ClimateGuard.Watch;

/// <summary>What a worker must read again after a crash to know what it knew, in the order in which it was written.</summary>
/// <remarks>
/// The ledger has no checkpoints: a machine begins anew with each job, so the newest job event and what came after it is the whole of its
/// past that counts. Memory does not grow with the ledger: one page, and one number for each machine.
/// </remarks>
public static class RestoreReader
{
    /// <summary>How far back the job of a machine is looked for. A part that has lain longer is soaked, and its job is asked for again.</summary>
    public static readonly TimeSpan JobsAtMost = TimeSpan.FromDays(31);

    /// <summary>Lines are in the order in which they were written; their times are event times and may lie earlier by buffers and clock steps up to this.</summary>
    private static readonly TimeSpan Disorder = TimeSpan.FromHours(2);

    private const int Page = 500;
    private const int Block = 256;

    private static readonly string[] KeptKinds =
        [LedgerKinds.Outlook, LedgerKinds.Answer, LedgerKinds.Permit, LedgerKinds.Measurement, LedgerKinds.Override];

    private static readonly string[] KeptEvents = ["permitRequest", "measurement", "override"];

    /// <summary>
    /// For each machine its newest job event and every event after it; and of the window, whatever the machine: outlooks, answers, permits,
    /// measurements and overrides, the events that asked for them, and the events of the cell and of machines without a job.
    /// </summary>
    /// <param name="ledger">The ledger.</param>
    /// <param name="machines">Ids of the machines of the cell; events of others come by the window alone.</param>
    /// <param name="now">The end of the window. Lines with a later time, from a clock that ran ahead, come too.</param>
    /// <param name="window">Its length, such as 24 h; at least zero.</param>
    /// <param name="cancellation">Stops reading.</param>
    /// <exception cref="ArgumentOutOfRangeException">The window is negative.</exception>
    public static async IAsyncEnumerable<LedgerEntry> EventsSince(
        ILedgerStore ledger,
        IReadOnlyList<string> machines,
        DateTimeOffset now,
        TimeSpan window,
        [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        ArgumentNullException.ThrowIfNull(machines);
        ArgumentOutOfRangeException.ThrowIfLessThan(window, TimeSpan.Zero);
        var begin = now - window;
        var jobs = new Dictionary<string, long>();
        foreach (var machine in machines)
        {
            if (await NewestJobAsync(ledger, machine, now - JobsAtMost, cancellation) is { } seq)
            {
                jobs[machine] = seq;
            }
        }

        var first = jobs.Values.Append(await FirstOfWindowAsync(ledger, begin - Disorder, cancellation)).Min();
        await foreach (var entry in ledger.AllAsync(first - 1, cancellation))
        {
            if (Counts(entry, jobs, begin))
            {
                yield return entry;
            }
        }
    }

    private static bool Counts(LedgerEntry entry, Dictionary<string, long> jobs, DateTimeOffset begin)
    {
        if (entry.Line.Kind != LedgerKinds.Event)
        {
            return entry.Line.Time >= begin && KeptKinds.Contains(entry.Line.Kind);
        }

        return entry.Line.Machine is { } machine && jobs.TryGetValue(machine, out var job)
            ? entry.Seq >= job || (entry.Line.Time >= begin && KeptEvents.Contains(TypeOf(entry.Line.Json)))
            : entry.Line.Time >= begin;
    }

    private static async ValueTask<long?> NewestJobAsync(
        ILedgerStore ledger, string machine, DateTimeOffset earliest, CancellationToken cancellation)
    {
        var before = long.MaxValue;
        while (true)
        {
            var page = await ledger.ReadBackAsync(LedgerKinds.Event, machine, before, Page, cancellation);
            if (page.FirstOrDefault(entry => TypeOf(entry.Line.Json) == "job") is { } job)
            {
                return job.Seq;
            }

            if (page.Count < Page || page.All(entry => entry.Line.Time < earliest))
            {
                return null;
            }

            before = page[^1].Seq;
        }
    }

    /// <summary>
    /// A number before which no line belongs to the window. By halving, which needs times in order; so a place counts as older than the
    /// window only when a whole block of lines is, and the window begins earlier by what clocks and buffers can disorder.
    /// </summary>
    private static async ValueTask<long> FirstOfWindowAsync(ILedgerStore ledger, DateTimeOffset begin, CancellationToken cancellation)
    {
        var newest = await ledger.NewestAsync(null, null, 1, cancellation);
        var low = 1L;
        var high = newest.Count == 0 ? 1 : newest[0].Seq + 1;
        while (low < high)
        {
            var middle = low + ((high - low) / 2);
            var block = await ledger.ReadAsync(middle - 1, Block, cancellation);
            if (block.Any(entry => entry.Line.Time >= begin))
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        return low;
    }

    /// <summary>The <c>type</c> of an event, as events.jsonl names it; null when there is none.</summary>
    private static string? TypeOf(string json)
    {
        try
        {
            var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(json));
            while (reader.Read())
            {
                if (reader.TokenType == JsonTokenType.PropertyName && reader.CurrentDepth == 1 && reader.ValueTextEquals("type"))
                {
                    return reader.Read() && reader.TokenType == JsonTokenType.String ? reader.GetString() : null;
                }
            }
        }
        catch (JsonException)
        {
            return null;
        }

        return null;
    }
}
