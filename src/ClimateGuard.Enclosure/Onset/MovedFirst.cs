namespace ClimateGuard.Enclosure;

/// <summary>When a signal began to leave its usual course.</summary>
/// <param name="Signal">Which signal, in words.</param>
/// <param name="At">When.</param>
public sealed record SignalOnset(string Signal, DateTimeOffset At);

/// <summary>What moved first: the onset of each signal of an air handler and its zone, in order of time.</summary>
public static class MovedFirst
{
    private const int Step = 5;
    private const int Quiet = 24;

    /// <summary>The onsets; a signal that did not leave its course is not among them.</summary>
    /// <param name="handler">The air handler.</param>
    /// <param name="zone">Its zone, or null.</param>
    /// <remarks>Course and spread are those of the first two hours of the window, in means of 5 min; CUSUM with k = 0.5 σ and h = 5 σ.</remarks>
    public static IReadOnlyList<SignalOnset> Of(HandlerSignals handler, ZoneSignals? zone)
    {
        ArgumentNullException.ThrowIfNull(handler);
        var signals = new List<(string Name, double[]? Row, double Least)>
        {
            ("chilled water", handler.Of("chilledWater"), 0.2), ("filter pressure", handler.Of("filterPressure"), 3), ("fan speed", handler.FanSpeed, 0.01),
            ("air flow", handler.Of("airflow"), 50), ("supply air", handler.Supply, 0.15), ("return air", handler.Return, 0.05),
            ("cooling command", handler.Cooling, 0.02), ("heating command", handler.Heating, 0.02), ("room air", zone?.Mean, 0.05), ("hall", zone?.Hall, 0.3),
        };
        signals.AddRange(zone?.Powers.Select(p => ($"power of {p.Sensor.Machine}", (double[]?)p.Row, 0.5)) ?? []);
        signals.AddRange(zone?.Liquids.Select(p => ($"liquid of {p.Sensor.Machine}", (double[]?)p.Row, 0.1)) ?? []);
        signals.AddRange(zone?.Doors.Select(p => (p.Sensor.Id, (double[]?)p.Row, 0.05)) ?? []);
        return
        [
            .. signals.Where(s => s.Row is not null).Select(s => (s.Name, Step: Onset(s.Row!, s.Least))).Where(s => s.Step is not null)
                .Select(s => new SignalOnset(s.Name, handler.Frame.TimeOf(s.Step!.Value * Step))).OrderBy(s => s.At),
        ];
    }

    private static int? Onset(double[] row, double least)
    {
        var means = RowMath.Blocks(row, Step);
        var first = Array.FindIndex(means, m => !double.IsNaN(m));
        if (first < 0 || means.Length - first <= Quiet) return null;
        var quiet = means[first..(first + Quiet)];
        return Cusum.Onset(means, Robust.Median(quiet), Math.Max(least, Robust.Sigma(quiet)));
    }
}
