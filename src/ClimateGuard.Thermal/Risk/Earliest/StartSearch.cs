using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The search for the earliest start: along the grid until the release and nine truths in ten are found, then by halves to a minute.</summary>
internal sealed class StartSearch
{
    private static readonly int[] FirstMinutes = [0, 2, 5, 10, 15, 20, 25, 30, 40, 50, 60];

    private readonly ThermalModel model;
    private readonly HoldAhead hold;
    private readonly Policies policies;
    private readonly HeldPaths paths;
    private readonly List<Looked> looked = [];

    public StartSearch(ThermalModel model, ThermalState state, HoldAhead hold, Policies policies, HeldPaths paths)
    {
        this.model = model;
        this.hold = hold;
        this.policies = policies;
        this.paths = paths;
        Begin = state;
    }

    private ThermalState Begin { get; }

    public EarliestStart Find()
    {
        if (!paths.Known)
        {
            throw new NotSupportedException("The model has a link that the fast paths cannot follow, so the held state cannot be forecast.");
        }

        var release = -1;
        foreach (var minute in Grid(hold.Horizon.TotalMinutes))
        {
            Look(minute, forRelease: release < 0);
            release = release < 0 && looked[^1].Released ? looked.Count - 1 : release;
            if (release == 0 || (release > 0 && looked[^1].EverSafe >= 0.9))
            {
                break;
            }
        }

        return release switch
        {
            0 => new SafeNow(),
            < 0 => new NotWithinForecast(hold.Horizon, looked[^1].EverSafe),
            _ => new SafeAt(
                Minutes(Halve(looked[release - 1].Minute, looked[release].Minute, IsReleased)), TimeFor(0.1), TimeFor(0.5), TimeFor(0.9)),
        };
    }

    private static IEnumerable<int> Grid(double horizonMinutes)
    {
        foreach (var minute in FirstMinutes)
        {
            if (minute <= horizonMinutes)
            {
                yield return minute;
            }
        }

        for (var minute = 75; minute <= horizonMinutes; minute += 15)
        {
            yield return minute;
        }
    }

    private static TimeSpan Minutes(int minutes) => TimeSpan.FromMinutes(minutes);

    private static int Halve(int unsafeMinute, int safeMinute, Func<int, bool> safe)
    {
        while (safeMinute - unsafeMinute > 1)
        {
            var middle = (unsafeMinute + safeMinute) / 2;
            (unsafeMinute, safeMinute) = safe(middle) ? (unsafeMinute, middle) : (middle, safeMinute);
        }

        return safeMinute;
    }

    private void Look(int minute, bool forRelease)
    {
        var before = looked.Count == 0 ? null : looked[^1];
        var state = (before?.State ?? Begin).Copy();
        Wait(state, before?.Minute ?? 0, minute);

        // The guard band costs little; where it forbids the start, the probability is not asked, only which truths are safe.
        if (!forRelease || !Guarded(state, minute))
        {
            looked.Add(new(minute, state, false, paths.SafeAt(minute, keep: true, before?.Ever), paths.Paths));
            return;
        }

        var outcome = paths.At(minute);
        bool[] ever = [.. outcome.Safe.Select((safe, path) => safe || (before?.Ever[path] ?? false))];
        looked.Add(new(minute, state, outcome.Probability <= policies.Probability.ReleaseHold, ever, paths.Paths));
    }

    private bool IsReleased(int minute)
    {
        var before = looked.Last(known => known.Minute <= minute);
        var state = before.State.Copy();
        Wait(state, before.Minute, minute);
        return Guarded(state, minute) && paths.StaysBelow(minute, policies.Probability.ReleaseHold);
    }

    private bool Guarded(ThermalState state, int minute)
    {
        var start = state.Copy();
        if (hold.ReprobeAtStart)
        {
            model.ProbeDatum(start, [Axis.X, Axis.Y, Axis.Z]);
        }

        return GuardBand.Holds(model, start, hold.Cut, minute, hold.Margin, policies.GuardFactor);
    }

    private void Wait(ThermalState state, int from, int to)
    {
        foreach (var course in hold.Courses(model.Noise, from, to))
        {
            for (var step = 0; step < course.Steps; step++)
            {
                model.Advance(state, course.Surroundings with { AirCelsius = course.AirAt(step) }, course.Step);
            }
        }
    }

    /// <summary>The time by which a share of the truths are, or once were, safe; null beyond the horizon.</summary>
    private TimeSpan? TimeFor(double share)
    {
        var reached = looked.FindIndex(known => known.EverSafe >= share);
        if (reached <= 0)
        {
            return reached == 0 ? TimeSpan.Zero : null;
        }

        var before = looked[reached - 1];
        return Minutes(Halve(before.Minute, looked[reached].Minute, minute => Share(paths.SafeAt(minute, keep: false, before.Ever), paths.Paths) >= share));
    }

    private static double Share(bool[] safe, int paths) => safe.AsSpan(0, paths).Count(true) / (double)paths;

    /// <summary>One minute of the grid.</summary>
    private sealed record Looked(int Minute, ThermalState State, bool Released, bool[] Ever, int Paths)
    {
        public double EverSafe { get; } = Share(Ever, Paths);
    }
}
