namespace ClimateGuard.Enclosure;

/// <summary>How the hall works on a zone.</summary>
internal static class WallHeat
{
    private const int Block = 30;
    private const double LeastHallRange = 3;
    private const double LeastInControl = 0.85;

    /// <summary>Cooling delivered (room minus supply, in K) per kelvin of hall minus room; NaN when it cannot be told.</summary>
    public static double Slope(ZoneSignals zone)
    {
        if (zone is not { Mean: { } room, Hall: { } hall } || zone.Lead is not { Supply: { } supply }) return double.NaN;
        double[] t = RowMath.Blocks(room, Block), s = RowMath.Blocks(supply, Block), h = RowMath.Blocks(hall, Block);
        var load = zone.Powers.Select(p => RowMath.Blocks(p.Row, Block)).ToList();
        List<double> x = [], y = [], q = [];
        for (var i = 0; i < t.Length; i++)
        {
            if (double.IsNaN(t[i] + s[i] + h[i])) continue;
            x.Add(h[i] - t[i]);
            y.Add(t[i] - s[i]);
            q.Add(load.Sum(p => double.IsNaN(p[i]) ? 0 : p[i]));
        }

        return x.Count < 24 || x.Max() - x.Min() < LeastHallRange ? double.NaN : Partial(x, y, q);
    }

    /// <summary>Share of the minutes in which the room was within half a kelvin of its set point.</summary>
    public static double InControl(ZoneSignals zone) =>
        zone.Error is { } error ? error.Count(e => Math.Abs(e) <= 0.5) / (double)Math.Max(1, error.Count(e => !double.IsNaN(e))) : 0;

    /// <summary>Whether this zone and its neighbours were in control: only then does what a zone takes from the hall show in its cooling.</summary>
    public static bool AllInControl(ZoneCase known) => InControl(known.Signals) >= LeastInControl
        && known.Cell.Zones.Where(z => z.Id != known.Signals.Zone.Id).All(z => InControl(new ZoneSignals(known.Cell, z, known.Signals.Frame)) >= LeastInControl);

    /// <summary>Whether the dew point rose along with the heat through the wall: outside air brings moisture, a thin wall brings none.</summary>
    public static bool Moist(double dewPointKelvins, double rise) => dewPointKelvins > 0.13 * rise;

    /// <summary>Room over hall, in K/K, and the share of its movement that the hall explains; NaN when the hall hardly moves.</summary>
    public static (double Slope, double Share) RoomOverHall(ZoneSignals zone)
    {
        if (zone is not { Mean: { } room, Hall: { } hall }) return (double.NaN, double.NaN);
        double[] t = RowMath.Blocks(room, Block), h = RowMath.Blocks(hall, Block);
        if (!(Robust.Range(h) >= LeastHallRange)) return (double.NaN, double.NaN);
        var rho = RowMath.Correlation(h, t);
        return (rho * Spread(t) / Spread(h), rho > 0 ? rho * rho : 0);
    }

    /// <summary>How much further a sensor follows the hall than the others do, over the range of the hall, in K.</summary>
    public static double Bias(ZoneSignals zone, string sensor)
    {
        if (zone.Hall is not { } hall) return double.NaN;
        var apart = Neighbours.Hours(zone, sensor);
        var h = RowMath.Blocks(hall, 60);
        if (apart.Length != h.Length || !(Robust.Range(h) >= LeastHallRange) || h.Length < 12) return 0;
        double x = Robust.Mean(h), y = Robust.Mean(apart);
        var pairs = h.Zip(apart).Where(p => !double.IsNaN(p.First + p.Second)).ToList();
        var slope = pairs.Sum(p => (p.First - x) * (p.Second - y)) / pairs.Sum(p => (p.First - x) * (p.First - x));
        return Math.Max(0, slope * Robust.Range(h));
    }

    private static double Spread(double[] values) => Math.Sqrt(Robust.Mean(values.Select(v => Math.Pow(v - Robust.Mean(values), 2))));

    // Slope of y over x with the machine load held equal.
    private static double Partial(List<double> x, List<double> y, List<double> q)
    {
        double mx = x.Average(), my = y.Average(), mq = q.Average();
        double xx = 0, xq = 0, qq = 0, xy = 0, qy = 0;
        for (var i = 0; i < x.Count; i++)
        {
            double a = x[i] - mx, b = q[i] - mq, c = y[i] - my;
            (xx, xq, qq, xy, qy) = (xx + (a * a), xq + (a * b), qq + (b * b), xy + (a * c), qy + (b * c));
        }

        var determinant = (xx * qq) - (xq * xq);
        return qq < 1e-6 ? xy / xx : determinant < 0.05 * xx * qq ? double.NaN : ((xy * qq) - (qy * xq)) / determinant;
    }
}
