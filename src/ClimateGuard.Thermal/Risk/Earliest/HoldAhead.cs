namespace ClimateGuard.Thermal;

/// <summary>A machine that is held from now on, and the cut that waits.</summary>
/// <remarks>Equality by members. Immutable.</remarks>
public sealed record HoldAhead
{
    /// <summary>What surrounds machine and part at this moment; a wet-bulb temperature is needed when the part is or becomes wet.</summary>
    public required Surroundings Now { get; init; }

    /// <summary>The cut that waits, with its own surroundings; its air counts from now, not from the start of the cut.</summary>
    public required CutAhead Cut { get; init; }

    /// <summary>The spindle goes on turning as now while waiting, so that it stays warm; otherwise it stands still and cools.</summary>
    public bool KeepSpindleTurning { get; init; }

    /// <summary>How long the part stays wet once the coolant is off; zero when it is blown dry, null for the model's own value.</summary>
    public TimeSpan? WetFor { get; init; }

    /// <summary>The datum is probed again at the start, so that drift counts from there.</summary>
    public bool ReprobeAtStart { get; init; }

    /// <summary>How far to look, in (0, 48] h.</summary>
    public TimeSpan Horizon { get; init; } = TimeSpan.FromHours(4);

    /// <summary>How long after the end of the cut it must still be safe (common practice, no source).</summary>
    public TimeSpan Margin { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>What is in force while it is held, one after the other; the last goes on.</summary>
    internal IEnumerable<(Surroundings Around, double UntilMinutes)> Phases(ThermalNoise noise)
    {
        var waiting = Now with { SpindleLoad = KeepSpindleTurning ? Now.SpindleLoad : 0 };
        if (Now.Medium is Medium.Flood or Medium.Mist or Medium.Wet)
        {
            var wet = WetFor ?? noise.WetFor;
            for (var at = TimeSpan.Zero; at < wet;)
            {
                var film = DryingFilm.Covering(waiting with { Medium = Medium.Wet }, wet - at, noise);
                at += DryingFilm.UntilThinner(wet - at, noise);
                yield return (film, at.TotalMinutes);
            }

            waiting = waiting with { Medium = Medium.Air };
        }

        yield return (waiting, double.PositiveInfinity);
    }

    /// <summary>The courses from one minute to another of the wait.</summary>
    internal IEnumerable<PathCourse> Courses(ThermalNoise noise, double fromMinutes, double toMinutes)
    {
        var at = fromMinutes;
        foreach (var (around, until) in Phases(noise))
        {
            var end = Math.Min(until, toMinutes);
            if (end > at)
            {
                var steps = (int)Math.Ceiling(end - at - 1e-9);
                yield return new(around, Cut, at, TimeSpan.FromMinutes((end - at) / steps), around.Medium == Medium.Still ? 0 : steps);
                at = end;
            }
        }
    }
}
