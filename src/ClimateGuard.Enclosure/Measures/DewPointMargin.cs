using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Enclosure;

/// <summary>How far the coldest surface stays above the dew point.</summary>
internal static class DewPointMargin
{
    private const int Step = 5;

    /// <summary>The median dew point of the window, in °C; NaN without humidity.</summary>
    public static double DewPoint(ZoneSignals zone)
    {
        if (zone is not { Humidity: { } humidity, Mean: { } air }) return double.NaN;
        return Robust.Median(Enumerable.Range(0, zone.Frame.Minutes / 30).Select(i => 30 * i)
            .Where(m => humidity.Row[m] is >= 1 and <= 100 && air[m] is > -20 and < 60)
            .Select(m => MoistAir.AtRelativeHumidity(new Celsius(air[m]), humidity.Row[m] / 100).DewPoint.Value));
    }

    /// <summary>How much the dew point rose against other days, in K; NaN when not known.</summary>
    public static double Risen(ZoneCase known)
    {
        var usual = known.Usually("dew", DewPoint);
        return usual.Learned ? known.Number("dew", DewPoint) - usual.Median : double.NaN;
    }

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
