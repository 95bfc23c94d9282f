namespace ClimateGuard.Enclosure;

/// <summary>What a direct-expansion coil does while its compressor runs, against other days.</summary>
/// <remarks>
/// By the hour, over the share of it in which the compressor ran: a compressor that starts often never runs long enough for the supply air to
/// settle, but the heat it takes in an hour still goes with the time it ran.
/// </remarks>
internal static class Compressor
{
    private const int Hour = 60;
    private const int Lag = 5;
    private const int SettledOff = 12;
    private const int LeastOff = 30;
    private const double LeastDuty = 0.15;
    private const int LeastHours = 4;
    private const double LeastOutdoorRange = 4;

    /// <summary>Pull over usual pull; which share of the usual one is lost per kelvin outdoors, more than usual; minutes running. NaN without other days.</summary>
    public static (double Share, double ExtraLoss, int Minutes) Share(HandlerCase known)
    {
        var usual = known.Baseline.Usually("compressor", Level);
        var usualLoss = known.Baseline.Usually("compressor/outdoor", Loss);
        var (level, loss) = (known.Number("compressor", Level), known.Number("compressor/outdoor", Loss));
        if (!usual.Learned || !(usual.Median > 0)) return (double.NaN, double.NaN, 0);
        return (level / usual.Median,
            (loss - (double.IsNaN(usualLoss.Median) ? 0 : usualLoss.Median)) / usual.Median, (int)known.Number("compressor/minutes", Minutes));
    }

    /// <summary>A weak compressor explains a warm room.</summary>
    public static void Against(HandlerCase known, List<Evidence> evidence)
    {
        if (known.Signals.Handler.Medium is Plant.CoolingMedium.DirectExpansion && Share(known).Share < 0.85)
            evidence.Add(new("the coil is weaker than usual while the compressor runs, which explains it", -5, "compressor weak"));
    }

    private static double Level(HandlerSignals signals) => Robust.Median(Hours(signals).Select(hour => hour.Pull));

    private static double Minutes(HandlerSignals signals) => Hour * Hours(signals).Sum(hour => hour.Duty);

    // Kelvins of pull that are lost per kelvin outdoors; NaN when the outdoor air hardly moved.
    private static double Loss(HandlerSignals signals)
    {
        var hours = Hours(signals).Where(hour => !double.IsNaN(hour.Outdoor)).ToList();
        if (hours.Count < LeastHours || hours.Max(hour => hour.Outdoor) - hours.Min(hour => hour.Outdoor) < LeastOutdoorRange) return double.NaN;
        var weight = hours.Sum(hour => hour.Duty);
        double x = hours.Sum(hour => hour.Duty * hour.Outdoor) / weight, y = hours.Sum(hour => hour.Duty * hour.Pull) / weight;
        return -hours.Sum(hour => hour.Duty * (hour.Outdoor - x) * (hour.Pull - y)) / hours.Sum(hour => hour.Duty * (hour.Outdoor - x) * (hour.Outdoor - x));
    }

    // The pull of a running compressor in each hour in which it ran enough and the fan all the time.
    private static List<(double Pull, double Outdoor, double Duty)> Hours(HandlerSignals signals)
    {
        var hours = new List<(double, double, double)>();
        if (signals is not { Supply: { } supply, Entering: { } entering } || (signals.Of("compressor") ?? signals.Cooling) is not { } running) return hours;
        double[] pull = [.. entering.Zip(supply, (e, s) => e - s)];
        var standing = Standing(signals, running, pull);
        for (var from = Lag; from + Hour <= pull.Length; from += Hour)
        {
            var duty = RowMath.Mean(running, from - Lag, Hour);
            var mean = RowMath.Mean(pull, from, Hour);
            if (!(duty >= LeastDuty) || double.IsNaN(mean) || Enumerable.Range(from, Hour).Any(minute => !signals.FanOn[minute])) continue;
            hours.Add(((mean - ((1 - duty) * standing)) / duty, signals.Outdoor is { } outdoor ? RowMath.Mean(outdoor, from, Hour) : double.NaN, duty));
        }

        return hours;
    }

    // What the fan alone does once the coil is warm again.
    private static double Standing(HandlerSignals signals, double[] running, double[] pull)
    {
        var pulls = new List<double>();
        var held = 0;
        for (var minute = 0; minute < pull.Length; minute++)
        {
            held = running[minute] <= CoilBlock.ClosedCommand && signals.FanOn[minute] ? held + 1 : 0;
            if (held > SettledOff && !double.IsNaN(pull[minute])) pulls.Add(pull[minute]);
        }

        return pulls.Count < LeastOff ? -CoilCurve.FanAlone : Robust.Median(pulls);
    }
}
