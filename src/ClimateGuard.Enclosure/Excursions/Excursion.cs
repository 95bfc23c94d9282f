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
    /// <remarks>An excursion ends after 10 min back in the band, so that noise at its edge makes one and not many (common practice, no source).</remarks>
    public static IReadOnlyList<Excursion> Of(Cell cell, ZoneSignals zone, IReadOnlyList<CutAtMachine> cuts)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(cuts);
        if (zone.Error is not { } error) return [];
        var band = zone.Zone.Band.Value;
        var found = new List<Excursion>();
        int from = -1, last = -1;
        for (var minute = 0; minute <= error.Length; minute++)
        {
            var outside = minute < error.Length && Math.Abs(error[minute]) > band;
            if (outside)
            {
                if (from < 0) from = minute;
                last = minute;
            }

            if (from < 0 || (minute < error.Length && minute - last < Settled)) continue;
            found.Add(Measured(cell, zone, error, from, last, minute < error.Length, cuts));
            from = -1;
        }

        return found;
    }

    private const int Settled = 10;

    private static Excursion Measured(
        Cell cell, ZoneSignals zone, double[] error, int from, int last, bool ended, IReadOnlyList<CutAtMachine> cuts)
    {
        double peak = 0, degreeMinutes = 0;
        for (var minute = from; minute <= last; minute++)
        {
            if (double.IsNaN(error[minute])) continue;
            if (Math.Abs(error[minute]) > Math.Abs(peak)) peak = error[minute];
            degreeMinutes += Math.Max(0, Math.Abs(error[minute]) - zone.Zone.Band.Value);
        }

        DateTimeOffset begin = zone.Frame.TimeOf(from), end = zone.Frame.TimeOf(last + 1);
        var machines = cell.Machines.Where(m => m.Zone == zone.Zone.Id).Select(m => m.Id).ToHashSet(StringComparer.Ordinal);
        var touched = cuts.Where(c => machines.Contains(c.Machine) && c.From < end && c.To > begin).Select(c => c.Serial).Distinct();
        return new Excursion(zone.Zone.Id, begin, ended ? end : null, peak, degreeMinutes, [.. touched]);
    }
}
