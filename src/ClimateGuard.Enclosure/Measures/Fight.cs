using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>Two air handlers against each other.</summary>
internal static class Fight
{
    /// <summary>Cooling minus heating command; null when neither is known.</summary>
    public static double[]? Net(HandlerSignals handler)
    {
        if (handler.Cooling is not { } cooling) return null;
        return handler.Heating is { } heating ? [.. cooling.Zip(heating, (c, h) => c - h)] : cooling;
    }

    /// <summary>Correlation of the two, from half-hour means.</summary>
    public static double Correlation(double[] one, double[] other) => RowMath.Correlation(RowMath.Blocks(one, 10), RowMath.Blocks(other, 10));

    /// <summary>The same for another day.</summary>
    public static double Together(Cell cell, ZoneSignals zone, AirHandler other)
    {
        if (zone.Lead is not { } own || Net(own) is not { } net) return double.NaN;
        return Net(new HandlerSignals(cell, other, zone.Frame)) is { } against ? Correlation(net, against) : double.NaN;
    }
}
