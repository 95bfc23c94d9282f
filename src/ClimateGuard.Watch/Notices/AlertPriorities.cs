using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Gives each alert its priority: what the machine holds decides, not what the thermometer says.</summary>
/// <remarks>
/// Common practice, no source: <c>hold</c> and <c>not known</c> on a critical part are high, <c>hold</c> on any other part is medium, the
/// rest is low. Deterministic; not safe across threads.
/// </remarks>
/// <param name="cell">The cell.</param>
public sealed class AlertPriorities(Cell cell)
{
    private readonly Dictionary<string, PartClass> loaded = new(StringComparer.Ordinal);

    /// <summary>Ranks the alerts among these decisions, in order; the outlooks among them say which part each machine holds.</summary>
    /// <param name="decisions">Decisions of one round.</param>
    public IReadOnlyList<RankedAlert> Rank(IReadOnlyList<Decision> decisions)
    {
        ArgumentNullException.ThrowIfNull(decisions);
        foreach (var decision in decisions)
        {
            if (decision is PlantChanged changed)
            {
                cell = changed.Change.Next.Cell;
            }
            else if (decision is OutlookIssued issued)
            {
                Holds(issued.Outlook.Machine, issued.Outlook.Part);
            }
        }

        return [.. decisions.OfType<AlertRaised>().Select(raised => new RankedAlert(raised, Of(raised.Alert)))];
    }

    /// <summary>Takes note of the part that a machine holds; an unknown part number stands for none.</summary>
    /// <param name="machine">Id of the machine.</param>
    /// <param name="part">Part number.</param>
    public void Holds(string machine, string part)
    {
        if (cell.FindPart(part) is { } known)
        {
            loaded[machine] = known.Class;
        }
        else
        {
            loaded.Remove(machine);
        }
    }

    /// <summary>The priority of an alert.</summary>
    public AlertPriority Of(Alert alert)
    {
        ArgumentNullException.ThrowIfNull(alert);
        var critical = alert.Machine is { } machine && loaded.TryGetValue(machine, out var partClass) && partClass == PartClass.Critical;
        return alert.Cause switch
        {
            "hold" => critical ? AlertPriority.High : AlertPriority.Medium,
            "not known" => critical ? AlertPriority.High : AlertPriority.Low,
            _ => AlertPriority.Low,
        };
    }
}
