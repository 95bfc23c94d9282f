using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Counts what was told: the figures about our own alarms, and the lines that stand in the ledger for it.</summary>
/// <remarks>Safe across threads.</remarks>
internal sealed class AlarmBook : IAlertChannel
{
    private readonly Lock gate = new();
    private readonly AlertPriorities priorities;
    private IReadOnlyList<Shift> shifts;
    private readonly TimeZoneInfo zone;
    private AlarmFigures figures;
    private long[] before = [0, 0, 0];
    private readonly SortedDictionary<string, long> lines = new(StringComparer.Ordinal);

    public AlarmBook(Cell cell, DateTimeOffset begun)
    {
        priorities = new AlertPriorities(cell);
        shifts = cell.Description.Policies.Shifts;
        zone = TimeZoneInfo.FindSystemTimeZoneById(cell.Description.TimeZone);
        figures = new AlarmFigures(shifts, zone, begun);
    }

    public string Name => "alarm figures";

    /// <summary>Lines that decisions put into the ledger since the start of the process, by kind.</summary>
    public IReadOnlyList<(string Kind, long Count)> Lines
    {
        get
        {
            lock (gate)
            {
                return [.. lines.Select(pair => (pair.Key, pair.Value))];
            }
        }
    }

    /// <summary>Activations of a priority since the start of the process.</summary>
    public long Raised(AlertPriority priority)
    {
        lock (gate)
        {
            return figures.Totals[(int)priority] - before[(int)priority];
        }
    }

    public ValueTask TellAsync(IReadOnlyList<Decision> decisions, CancellationToken cancellation)
    {
        lock (gate)
        {
            foreach (var line in decisions.Select(LedgerLines.Of).OfType<LedgerLine>())
            {
                lines[line.Kind] = lines.GetValueOrDefault(line.Kind) + 1;
            }

            foreach (var changed in decisions.OfType<PlantChanged>())
            {
                Use(changed.Change.Next.Cell.Description.Policies.Shifts);
            }

            foreach (var alert in priorities.Rank(decisions))
            {
                figures.Take(alert);
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <summary>Begins with what the ledger holds from before; called once, before anything is told.</summary>
    /// <param name="begun">Since when the ledger was read.</param>
    /// <param name="lines">What it holds, oldest first: an alert, or the part that a machine held.</param>
    public void Fill(DateTimeOffset begun, IEnumerable<(AlertRaised? Alert, (string Machine, string Part)? Held)> lines)
    {
        lock (gate)
        {
            figures = new AlarmFigures(shifts, zone, begun);
            foreach (var (raised, held) in lines)
            {
                if (held is { } on)
                {
                    priorities.Holds(on.Machine, on.Part);
                }

                if (raised is not null)
                {
                    figures.Take(new RankedAlert(raised, priorities.Of(raised.Alert)));
                }
            }

            before = [.. figures.Totals];
        }
    }

    private void Use(IReadOnlyList<Shift> next)
    {
        var same = next.Count == shifts.Count && next.Zip(shifts).All(pair =>
            (pair.First.From, pair.First.To) == (pair.Second.From, pair.Second.To) && pair.First.Days.SequenceEqual(pair.Second.Days));
        shifts = next;
        if (!same)
        {
            figures.UseShifts(next);
        }
    }

    public AlarmFiguresReport At(DateTimeOffset now)
    {
        lock (gate)
        {
            return figures.At(now);
        }
    }
}
