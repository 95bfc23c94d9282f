using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The search for the earliest start: along the grid to the release, then which truths are safe when, then by halves to a minute.</summary>
internal sealed class StartSearch
{
    private static readonly int[] FirstMinutes = [0, 2, 5, 10, 15, 20, 25, 30, 40, 50, 60];

    private readonly ThermalModel model;
    private readonly HoldAhead hold;
    private readonly Policies policies;
    private readonly HeldPaths paths;
    private readonly List<(int Minute, ThermalState State)> states = [];
    private readonly List<Truths> truths = [];

    public StartSearch(ThermalModel model, ThermalState state, HoldAhead hold, Policies policies, HeldPaths paths)
    {
        this.model = model;
        this.hold = hold;
        this.policies = policies;
        this.paths = paths;
        Begin = state;
    }

    private ThermalState Begin { get; }

    /// <summary>When it may start; null when it is not released within the horizon and nothing more is asked.</summary>
    /// <param name="evenIfNot">Then too: say on what share of the truths it is safe at some time.</param>
    public EarliestStart? Find(bool evenIfNot)
    {
        if (!paths.Known)
        {
            throw new NotSupportedException("The model has a link that the fast paths cannot follow, so the held state cannot be forecast.");
        }

        int[] grid = [.. Grid(hold.Horizon.TotalMinutes)];
        var release = FirstReleased(grid);
        if (release == 0)
        {
            return new SafeNow();
        }

        if (release < 0 && !evenIfNot)
        {
            return null;
        }

        LookAtTruths(grid, release);
        return release < 0
            ? new NotWithinForecast(hold.Horizon, truths[^1].Share)
            : new SafeAt(
                Minutes(Halve(grid[release - 1], grid[release], minute => IsReleased(minute, StateAt(minute)))), TimeFor(0.1), TimeFor(0.5), TimeFor(0.9));
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

    /// <summary>The first place of the grid at which it is released, or −1.</summary>
    private int FirstReleased(int[] grid)
    {
        for (var i = 0; i < grid.Length; i++)
        {
            states.Add((grid[i], StateAt(grid[i])));
            if (IsReleased(grid[i], states[i].State))
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>Asks which truths are safe, along the grid to the release and until nine in ten are, or to the end.</summary>
    private void LookAtTruths(int[] grid, int release)
    {
        for (var i = 0; i < grid.Length && (release < 0 || i <= release || truths[^1].Share < 0.9); i++)
        {
            paths.Keep(grid[i]);
            truths.Add(new(grid[i], paths.SafeAt(grid[i], i == 0 ? null : truths[^1].Ever), paths.Paths));
        }
    }

    // The guard band costs little; where it forbids the start, the probability is not asked.
    private bool IsReleased(int minute, ThermalState state)
    {
        if (!Guarded(state, minute))
        {
            return false;
        }

        foreach (var (known, _) in states)
        {
            if (known <= minute)
            {
                paths.Keep(known);
            }
        }

        return paths.StaysBelow(minute, policies.Probability.ReleaseHold);
    }

    private ThermalState StateAt(int minute)
    {
        var (from, known) = states.FindLast(before => before.Minute <= minute) is { State: not null } before ? before : (0, Begin);
        var state = known.Copy();
        foreach (var course in hold.Courses(model.Noise, from, minute))
        {
            for (var step = 0; step < course.Steps; step++)
            {
                model.Advance(state, course.Surroundings with { AirCelsius = course.AirAt(step) }, course.Step);
            }
        }

        return state;
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

    /// <summary>The time by which a share of the truths are, or once were, safe; null beyond the horizon.</summary>
    private TimeSpan? TimeFor(double share)
    {
        var reached = truths.FindIndex(known => known.Share >= share);
        if (reached <= 0)
        {
            return reached == 0 ? TimeSpan.Zero : null;
        }

        var before = truths[reached - 1];
        return Minutes(Halve(before.Minute, truths[reached].Minute, minute => ShareOf(paths.SafeAt(minute, before.Ever), paths.Paths) >= share));
    }

    private static double ShareOf(bool[] safe, int paths) => safe.AsSpan(0, paths).Count(true) / (double)paths;

    /// <summary>Which truths are or once were safe at one minute of the grid.</summary>
    private sealed record Truths(int Minute, bool[] Ever, int Paths)
    {
        public double Share { get; } = ShareOf(Ever, Paths);
    }
}
