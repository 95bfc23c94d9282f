using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>A time in which the air of a zone was outside the band it is asked to hold.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Begin">When it left the band.</param>
/// <param name="End">When it came back, or null while it lasts or the signal is lost.</param>
/// <param name="PeakKelvins">The farthest from the set point, with its sign.</param>
/// <param name="DegreeMinutes">Kelvins beyond the band times minutes.</param>
/// <param name="Serials">The jobs whose cuts fell into it.</param>
public sealed record Excursion(
    string Zone, DateTimeOffset Begin, DateTimeOffset? End, double PeakKelvins, double DegreeMinutes, IReadOnlyList<string> Serials);

/// <summary>A cut at a machine, to tell which jobs an excursion touches.</summary>
/// <param name="Serial">The serial number.</param>
/// <param name="Machine">The machine.</param>
/// <param name="From">Begin.</param>
/// <param name="To">End.</param>
public sealed record CutAtMachine(string Serial, string Machine, DateTimeOffset From, DateTimeOffset To);

/// <summary>Finds excursions.</summary>
public static class Excursions
{
    /// <summary>The excursions of a zone.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="zone">The zone.</param>
    /// <param name="cuts">The cuts of that time.</param>
    /// <remarks>When it is over: <see cref="ExcursionCount"/>.</remarks>
    public static IReadOnlyList<Excursion> Of(Cell cell, ZoneSignals zone, IReadOnlyList<CutAtMachine> cuts)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(cuts);
        if (zone.Error is not { } error) return [];
        var count = new ExcursionCount(zone.Zone.Band.Value);
        var found = new List<Excursion>();
        for (var minute = 0; minute < error.Length; minute++)
        {
            if (count.Take(zone.Frame.TimeOf(minute), error[minute]) is { } over) found.Add(Told(cell, zone.Zone, over, over.End, cuts));
        }

        if (count.Open is { } lasting) found.Add(Told(cell, zone.Zone, lasting, null, cuts));
        return found;
    }

    private static Excursion Told(Cell cell, Zone zone, ExcursionSpan span, DateTimeOffset? end, IReadOnlyList<CutAtMachine> cuts)
    {
        var machines = cell.Machines.Where(m => m.Zone == zone.Id).Select(m => m.Id).ToHashSet(StringComparer.Ordinal);
        var touched = cuts.Where(c => machines.Contains(c.Machine) && c.From < span.End && c.To > span.Begin).Select(c => c.Serial).Distinct();
        return new Excursion(zone.Id, span.Begin, end, span.PeakKelvins, span.DegreeMinutes, [.. touched]);
    }
}
