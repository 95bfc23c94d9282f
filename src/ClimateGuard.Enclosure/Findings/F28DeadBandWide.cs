namespace ClimateGuard.Enclosure;

/// <summary>F28: an on/off control swings too far.</summary>
public static class F28DeadBandWide
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F28",
        Name = "thermostat dead band too wide",
        Class = CauseClass.Control,
        Component = "control loop",
        Limits =
        [
            new("peakToPeakKelvin", 0.6, "common practice, no source"),
        ],
        LeastData = "six hours of on/off control",
        LeastSpan = TimeSpan.FromHours(6),
        OnAfter = TimeSpan.FromMinutes(180),
        OffAfter = TimeSpan.FromMinutes(240),
        Confounders = "hunting (F01), short cycling (F02)",
        FirstCheck = new(
            "Read the differential of the thermostat.", "controller", "at the thermostat", 4,
            "the differential is more than half a kelvin"),
        Source = "saw-tooth of the room under an on/off command (E.3, F28); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Zone?.Mean is not { } mean || known.Signals.Cooling is not { } command) yield break;
        if (!Commands.OnOff(command) && known.Signals.Handler.Medium is not Plant.CoolingMedium.DirectExpansion)
        {
            yield return known.About(Cause, [new("the command moves continuously", -4, "on and off")], []);
            yield break;
        }

        var size = SawTooth(mean);
        double Usual(HandlerSignals s) => s.Return is { } back ? SawTooth(back) : double.NaN;
        var usual = known.Baseline.Usually("sawtooth", Usual);
        var drift = known.Number("sawtooth", Usual);
        var onOff = known.Baseline.Usually("command/onoff", s => s.Cooling is { } own && (Commands.OnOff(own) || s.Handler.Medium is Plant.CoolingMedium.DirectExpansion) ? 1 : 0);
        var limit = known.Limits.Of(Cause, "peakToPeakKelvin");
        var usualWidth = onOff.Median > 0.5 && usual.Learned;
        var switches = Commands.Starts(command, 360).PerHour;
        yield return known.About(Cause,
            [new(FormattableString.Invariant($"under on/off control the room swings by {size:0.0} K (limit {limit:0.0} K)"), (usualWidth ? Weight.Of((drift / usual.Median) - 1, 0.5) : Weight.Of(size, limit)) + (switches < 0.5 ? -9 : 0), "room swing")], []);
    }

    // The usual size of the swing within three hours, so that a slow drift over the day does not count.
    private static double SawTooth(double[] row)
    {
        var sizes = new List<double>();
        for (var from = 0; from + 180 <= row.Length; from += 60)
        {
            var part = new ArraySegment<double>(row, from, 180);
            sizes.Add(Robust.Quantile(part, 0.97) - Robust.Quantile(part, 0.03));
        }

        return Robust.Quantile(sizes, 0.6);
    }
}
