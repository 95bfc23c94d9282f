namespace ClimateGuard.Enclosure;

/// <summary>When a signal began to leave its usual course.</summary>
/// <param name="Signal">Which signal, in words.</param>
/// <param name="At">When.</param>
public sealed record SignalOnset(string Signal, DateTimeOffset At);

/// <summary>The signals of an air handler and of its zone in one window.</summary>
/// <param name="Handler">Those of the air handler.</param>
/// <param name="Zone">Those of its zone, or null.</param>
public sealed record UnitSignals(HandlerSignals Handler, ZoneSignals? Zone);

/// <summary>What moved first: the onset of each signal of an air handler and its zone, in order of time.</summary>
public static class MovedFirst
{
    private const int Step = 5;
    private const int Quiet = 24;

    /// <summary>The onsets; a signal that did not leave its course is not among them.</summary>
    /// <param name="window">The window.</param>
    /// <param name="others">Other days of the same unit; fewer than three are not used.</param>
    /// <remarks>
    /// Means of 5 min, CUSUM with k = 0.5 σ and h = 5 σ. A signal is laid beside what it does at the same clock on other days, so a machine that starts
    /// with the shift did not move; without other days its course is that of the first two hours, and the hall and the powers of machines, which move each
    /// day, are left out. σ is the larger of that of these hours and that of other days.
    /// </remarks>
    public static IReadOnlyList<SignalOnset> Of(UnitSignals window, IReadOnlyList<UnitSignals> others)
    {
        ArgumentNullException.ThrowIfNull(window);
        ArgumentNullException.ThrowIfNull(others);
        var frame = window.Handler.Frame;
        var days = others.Count < UsualCourse.LeastDays ? [] : others.Select(day => (day.Handler.Frame, Rows: Rows(day).ToLookup(s => s.Name, s => s.Row))).ToList();
        var onsets = new List<SignalOnset>();
        foreach (var (name, row, least, isDaily) in Rows(window))
        {
            if (isDaily && days.Count == 0) continue;
            var alike = days.Where(day => day.Rows[name].Any()).Select(day => (day.Frame, RowMath.Blocks(day.Rows[name].First(), Step))).ToList();
            if (Onset(frame, RowMath.Blocks(row, Step), least, alike) is { } step) onsets.Add(new SignalOnset(name, frame.TimeOf(step * Step)));
        }

        return [.. onsets.OrderBy(onset => onset.At)];
    }

    private static int? Onset(SignalFrame frame, double[] means, double least, IReadOnlyList<(SignalFrame Frame, double[] Means)> alike)
    {
        var first = Array.FindIndex(means, m => !double.IsNaN(m));
        if (first < 0 || means.Length - first <= Quiet) return null;
        var sigma = least;
        if (alike.Count >= UsualCourse.LeastDays)
        {
            var (beside, usual) = new UsualCourse(alike, Step, Quiet).Of(frame, means);
            if (beside.Skip(first).Take(Quiet).Any(value => !double.IsNaN(value))) (means, sigma) = (beside, Math.Max(least, double.IsNaN(usual) ? least : usual));
        }

        var quiet = means[first..(first + Quiet)];
        return Cusum.Onset(means, Robust.Median(quiet), Math.Max(sigma, Robust.Sigma(quiet)));
    }

    private static IEnumerable<(string Name, double[] Row, double Least, bool IsDaily)> Rows(UnitSignals unit)
    {
        var (handler, zone) = (unit.Handler, unit.Zone);
        var signals = new List<(string Name, double[]? Row, double Least, bool IsDaily)>
        {
            ("chilled water", handler.Of("chilledWater"), 0.2, false), ("filter pressure", handler.Of("filterPressure"), 3, false), ("fan speed", handler.FanSpeed, 0.01, false),
            ("air flow", handler.Of("airflow"), 50, false), ("supply air", handler.Supply, 0.15, false), ("return air", handler.Return, 0.05, false),
            ("cooling command", handler.Cooling, 0.02, false), ("heating command", handler.Heating, 0.02, false), ("room air", zone?.Mean, 0.05, false), ("hall", zone?.Hall, 0.3, true),
        };
        signals.AddRange(zone?.Powers.Select(p => ($"power of {p.Sensor.Machine}", (double[]?)p.Row, 0.5, true)) ?? []);
        signals.AddRange(zone?.Liquids.Select(p => ($"liquid of {p.Sensor.Machine}", (double[]?)p.Row, 0.1, false)) ?? []);
        signals.AddRange(zone?.Doors.Select(p => (p.Sensor.Id, (double[]?)p.Row, 0.05, false)) ?? []);
        return signals.Where(signal => signal.Row is not null).Select(signal => (signal.Name, signal.Row!, signal.Least, signal.IsDaily));
    }
}
