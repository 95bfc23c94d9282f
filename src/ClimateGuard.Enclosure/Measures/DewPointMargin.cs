using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Enclosure;

/// <summary>How far the coldest surface stays above the dew point.</summary>
internal static class DewPointMargin
{
    private const int Step = 5;

    /// <summary>K by minute; null without humidity, air or surfaces.</summary>
    public static double[]? Of(ZoneSignals zone)
    {
        if (zone is not { Humidity: { } humidity, Mean: { } air } || zone.Surfaces.Count == 0) return null;
        var margin = new double[zone.Frame.Minutes];
        Array.Fill(margin, double.NaN);
        for (var minute = 0; minute < margin.Length; minute += Step)
        {
            double share = humidity.Row[minute] / 100, t = air[minute];
            if (!(share is >= 0.01 and <= 1) || !(t is > -20 and < 60)) continue;
            var dewPoint = MoistAir.AtRelativeHumidity(new Celsius(t), share).DewPoint.Value;
            var coldest = zone.Surfaces.Select(s => s.Row[minute]).Where(v => !double.IsNaN(v)).DefaultIfEmpty(double.NaN).Min();
            for (var m = minute; m < Math.Min(margin.Length, minute + Step); m++) margin[m] = coldest - dewPoint;
        }

        return margin;
    }
}
