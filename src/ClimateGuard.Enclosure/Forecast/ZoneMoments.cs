namespace ClimateGuard.Enclosure;

/// <summary>The moments of a zone, minute by minute, from the signals of a frame.</summary>
public static class ZoneMoments
{
    /// <summary>Reads the minutes of a zone.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="next">The zone beside it in the same frame, or null.</param>
    /// <param name="programme">What is stated of its set point, for minutes in which no signal says it; null: the set point of the zone.</param>
    public static IEnumerable<ZoneMoment> Of(ZoneSignals zone, ZoneSignals? next, SetBackProgramme? programme = null)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return Read(zone, next, programme);
    }

    private static IEnumerable<ZoneMoment> Read(ZoneSignals zone, ZoneSignals? next, SetBackProgramme? programme)
    {
        var regimes = Regimes.Of(zone);
        var asked = zone.Lead?.Of("coolingSetpoint");
        for (var minute = 0; minute < regimes.Length; minute++)
        {
            yield return new ZoneMoment(
                zone.Frame.TimeOf(minute).ToUnixTimeMilliseconds(),
                At(zone.Mean, minute),
                asked is not null && !double.IsNaN(asked[minute]) ? asked[minute] : programme?.At(zone.Frame.TimeOf(minute)) ?? zone.Zone.Setpoint.Value,
                At(zone.Lead?.Supply, minute),
                Flow(zone, minute),
                At(zone.Hall, minute),
                At(next?.Mean, minute),
                Sum(zone.Powers, minute),
                zone.Doors.Count == 0 ? 0 : Sum(zone.Doors, minute) / zone.Doors.Count,
                regimes[minute]);
        }
    }

    private static double Flow(ZoneSignals zone, int minute)
    {
        if (zone.Lead is not { } lead) return double.NaN;
        if (!lead.FanOn[minute]) return 0;
        return lead.FanSpeed is { } speed ? speed[minute] : 1;
    }

    private static double Sum(IReadOnlyList<SensorRow> rows, int minute)
    {
        double sum = 0;
        var known = 0;
        foreach (var row in rows)
        {
            if (double.IsNaN(row.Row[minute])) continue;
            sum += row.Row[minute];
            known++;
        }

        return known == 0 ? double.NaN : sum;
    }

    private static double At(double[]? row, int minute) => row is null ? double.NaN : row[minute];
}
