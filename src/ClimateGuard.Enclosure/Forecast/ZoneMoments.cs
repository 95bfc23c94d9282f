namespace ClimateGuard.Enclosure;

/// <summary>The moments of a zone, minute by minute, from the signals of a frame.</summary>
public static class ZoneMoments
{
    /// <summary>Reads the minutes of a zone.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="next">The zone beside it in the same frame, or null.</param>
    public static IEnumerable<ZoneMoment> Of(ZoneSignals zone, ZoneSignals? next)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return Read(zone, next);
    }

    private static IEnumerable<ZoneMoment> Read(ZoneSignals zone, ZoneSignals? next)
    {
        var regimes = Regimes.Of(zone);
        var asked = zone.Lead?.Of("coolingSetpoint");
        for (var minute = 0; minute < regimes.Length; minute++)
        {
            yield return new ZoneMoment(
                zone.Frame.TimeOf(minute).ToUnixTimeMilliseconds(),
                At(zone.Mean, minute),
                asked is null || double.IsNaN(asked[minute]) ? zone.Zone.Setpoint.Value : asked[minute],
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
