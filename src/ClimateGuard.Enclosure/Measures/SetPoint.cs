namespace ClimateGuard.Enclosure;

/// <summary>The set point of a zone, stated or shown by where the room is kept.</summary>
internal static class SetPoint
{
    private const int Block = 120;
    private const int ClockTolerance = 30;

    /// <summary>How far the stated set point stood beside that of other days for two hours, in K; NaN when it is no signal.</summary>
    /// <remarks>
    /// Beside what it usually is at any time, and beside what it usually is at those hours: a change that comes each day is a habit. Where the plant
    /// file states set-backs, beside what it asks for at those hours too: a set-back that was agreed is no change, one that was left on is.
    /// </remarks>
    public static double Change(ZoneCase known)
    {
        double Level(ZoneSignals s) => Stated(s) is { } row ? Robust.Median(row) : double.NaN;
        var usual = known.Usually("setpoint", Level);
        known.Number("setpoint", Level);
        if (Stated(known.Signals) is not { } stated || usual.Days == 0) return double.NaN;
        double farthest = 0;
        var frame = known.Signals.Frame;
        var programme = Programme(known);
        for (var start = Aligned(frame); start + Block <= stated.Length; start += Block)
        {
            var level = RowMath.Mean(stated, start, Block);
            if (double.IsNaN(level)) continue;
            var hour = frame.TimeOf(start).UtcDateTime.Hour;
            var atThatHour = known.Usually(FormattableString.Invariant($"setpoint/{hour}"), s => AtHour(s, hour));
            var beside = level - usual.Median;
            if (atThatHour.Learned && Math.Abs(level - atThatHour.Median) < Math.Abs(beside)) beside = level - atThatHour.Median;
            if (programme is not null && Beside(programme, frame, start, level) is var asked && Math.Abs(asked) < Math.Abs(beside)) beside = asked;
            if (Math.Abs(beside) > Math.Abs(farthest)) farthest = beside;
        }

        return farthest;
    }

    private static SetBackProgramme? Programme(ZoneCase known) => known.Signals.Zone.SetBacks.Count > 0 && TimeZoneInfo.TryFindSystemTimeZoneById(known.Cell.Description.TimeZone, out var local)
        ? new SetBackProgramme(known.Signals.Zone, local) : null;

    // A programme may begin and end by the switch clock of the unit, half an hour beside that of the plant file.
    private static double Beside(SetBackProgramme programme, SignalFrame frame, int start, double level)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (var minute = -ClockTolerance; minute <= Block + ClockTolerance; minute += 10)
        {
            var asked = programme.At(frame.TimeOf(start + minute));
            (low, high) = (Math.Min(low, asked), Math.Max(high, asked));
        }

        return level < low ? level - low : Math.Max(0, level - high);
    }

    private static double AtHour(ZoneSignals signals, int hour)
    {
        if (Stated(signals) is not { } row) return double.NaN;
        for (var start = Aligned(signals.Frame); start + Block <= row.Length; start += Block)
        {
            if (signals.Frame.TimeOf(start).UtcDateTime.Hour == hour) return RowMath.Mean(row, start, Block);
        }

        return double.NaN;
    }

    // Two hours begin at even hours of UTC, so that those of one day can be laid beside those of another.
    private static int Aligned(SignalFrame frame) => (int)((Block - (frame.Start.UtcDateTime.TimeOfDay.TotalMinutes % Block)) % Block);

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
}
