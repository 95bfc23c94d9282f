namespace ClimateGuard.Enclosure;

/// <summary>The vertical gradient of a zone.</summary>
internal static class Gradient
{
    private const double LeastMetres = 1.0;
    private const double HighMetres = 3.0;

    /// <summary>K per metre by minute; null without sensors at two heights.</summary>
    public static double[]? Of(ZoneSignals zone)
    {
        var low = zone.Air.Where(a => a.Sensor.HeightMetres < HighMetres).ToList();
        var high = zone.Air.Where(a => a.Sensor.HeightMetres >= HighMetres).ToList();
        if (low.Count == 0 || high.Count == 0) return null;
        var metres = high.Average(a => a.Sensor.HeightMetres!.Value) - low.Average(a => a.Sensor.HeightMetres!.Value);
        if (metres < LeastMetres) return null;
        double[] below = RowMath.MedianOf(low, zone.Frame.Minutes)!, above = RowMath.MedianOf(high, zone.Frame.Minutes)!;
        return [.. above.Zip(below, (h, l) => (h - l) / metres)];
    }
}
