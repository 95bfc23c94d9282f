namespace ClimateGuard.Enclosure;

/// <summary>F01: the control loop swings by itself.</summary>
public static class F01Hunting
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F01",
        Name = "control hunting",
        Class = CauseClass.Control,
        Component = "control loop",
        Limits =
        [
            new("peakToPeakKelvin", 0.4, "common practice, no source"),
            new("commandPeakToPeak", 0.1, "common practice, no source"),
        ],
        LeastData = "three hours with five cycles; six for a faint swing",
        LeastSpan = TimeSpan.FromHours(6),
        OnAfter = TimeSpan.FromMinutes(120),
        OffAfter = TimeSpan.FromMinutes(120),
        Confounders = "a machine that cycles with the same period (its power is compared); a sticking valve (F03)",
        FirstCheck = new(
            "Put the loop in manual for 20 min at its present output.", "controller", "at the controller", 25,
            "the swing of the room stops"),
        Source = "autocorrelation and zero crossings, Thornhill, Huang, Zhang (2003); disturbance count, Hägglund (1995), both from memory",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Zone?.Mean is not { } mean || known.Signals.Cooling is not { } command || known.Signals.Handler.Medium is Plant.CoolingMedium.DirectExpansion) yield break;
        var limit = known.Limits.Of(Cause, "peakToPeakKelvin");
        if ((Swing.Largest(mean, 0.4 * limit) ?? Swing.Largest(mean, 0.4 * limit, Swing.ShortStretch)) is not { } swing)
        {
            yield return known.About(Cause, [new("the room does not swing regularly", -2, "room swing")], []);
            yield break;
        }

        var evidence = new List<Evidence>
        {
            new(FormattableString.Invariant($"the room swings by {swing.PeakToPeak:0.0} K every {swing.PeriodMinutes:0} min (limit {limit:0.0} K)"), Weight.Of(swing.PeakToPeak, limit), "room swing"),
        };
        var stretch = new ArraySegment<double>(command, swing.From, swing.Minutes);
        var range = Robust.Quantile(stretch, 0.95) - Robust.Quantile(stretch, 0.05);
        var least = known.Limits.Of(Cause, "commandPeakToPeak");
        evidence.Add(new(FormattableString.Invariant($"the cooling command swings by {100 * range:0} %"), range >= least ? 1.5 : -4, "command swing"));
        if (Commands.OnOff(command)) evidence.Add(new("the command knows only on and off, so this is a thermostat", -8, "on and off"));
        if (F03ValveStiction.Shows(known)) evidence.Add(new("the valve leaves many moves unanswered, and a loop swings when its valve sticks", -8, "valve sticks"));
        if (known.Zone.Powers.Any(p => Swing.Of(p.Row, swing.From, swing.Minutes) is { Correlation: >= 0.5 } own && Math.Abs(own.PeriodMinutes - swing.PeriodMinutes) < 0.2 * swing.PeriodMinutes))
            evidence.Add(new("a machine takes its power with the same period", -4, "machine period"));
        if (known.Cell.Zones.Where(z => z.Id != known.Zone.Zone.Id).Select(z => new ZoneSignals(known.Cell, z, known.Zone.Frame).Mean)
            .Any(other => other is not null && Swing.Of(other, swing.From, swing.Minutes) is { } theirs && theirs.PeakToPeak > 1.5 * swing.PeakToPeak))
            evidence.Add(new("a neighbouring zone swings further, and this one follows", -7, "neighbour swings"));
        if (Hagglund(known.Zone.Error!, swing)) evidence.Add(new("more than ten disturbances within the supervision time (Hägglund)", 1, "disturbance count"));
        yield return known.About(Cause, evidence, [], swing.From);
    }

    // Ti is not known here; a loop that swings does so at about its integral time.
    private static bool Hagglund(double[] error, Swing swing)
    {
        var monitor = new HagglundMonitor(60 * swing.PeriodMinutes / 2, 0.05, 60);
        for (var minute = swing.From; minute < swing.From + swing.Minutes; minute++) monitor.Add(error[minute]);
        return monitor.Oscillates;
    }
}
