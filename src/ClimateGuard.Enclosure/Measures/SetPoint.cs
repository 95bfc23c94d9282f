namespace ClimateGuard.Enclosure;

/// <summary>The set point of a zone, stated or shown by where the room is kept.</summary>
internal static class SetPoint
{
    private const int Block = 120;

    /// <summary>How far the stated set point stood beside that of other days for two hours, in K; NaN when it is no signal.</summary>
    public static double Change(ZoneCase known)
    {
        double Level(ZoneSignals s) => Stated(s) is { } row ? Robust.Median(row) : double.NaN;
        var usual = known.Usually("setpoint", Level);
        known.Number("setpoint", Level);
        if (Stated(known.Signals) is not { } stated || usual.Days == 0) return double.NaN;
        return Farthest(RowMath.Blocks(stated, Block), usual.Median);
    }

    /// <summary>How far beside its set point the room was kept for two hours, steadily and with room left to control; and since when.</summary>
    public static (double Kelvins, int From) Plateau(ZoneCase known)
    {
        var error = known.Signals.Error!;
        double best = 0;
        var from = -1;
        for (var start = 0; start + Block <= error.Length; start += 30)
        {
            var middle = RowMath.Mean(error, start, Block);
            if (double.IsNaN(middle) || Math.Abs(middle) <= Math.Abs(best) || Robust.Range(RowMath.Blocks(error[start..(start + Block)], 10)) > 0.3) continue;
            if (!known.Signals.Handlers.Any(h => Moves(h, start))) continue;
            (best, from) = (middle, start);
        }

        return (best, Math.Abs(best) > 0.1 ? from : -1);
    }

    // Controlled, not saturated, not by hand: the command lies between its limits and moves a little.
    private static bool Moves(HandlerSignals handler, int start) =>
        handler.Cooling is { } cooling && cooling[start..(start + Block)] is var part
        && Robust.Quantile(part, 0.1) > 0.03 && Robust.Quantile(part, 0.9) < 0.95 && Robust.Range(part) > 0.01;

    // The set point of a supply is no set point of a room.
    private static double[]? Stated(ZoneSignals zone) => zone.Handlers
        .SelectMany(h => new[] { h.Of("coolingSetpoint"), h.Of("heatingSetpoint") })
        .FirstOrDefault(row => row is not null && Math.Abs(Robust.Median(row) - zone.Zone.Setpoint.Value) < 4);

    private static double Farthest(double[] blocks, double centre)
    {
        var known = blocks.Where(b => !double.IsNaN(b)).Select(b => b - centre).ToList();
        return known.Count == 0 ? double.NaN : known.MaxBy(Math.Abs);
    }
}
