namespace ClimateGuard.Thermal;

/// <summary>The drawn truths of a held machine, and how the waiting cut would go on each if it started at some minute.</summary>
/// <remarks>
/// Truths are kept at the minutes of the grid; a minute between is reached from the one before by the same draws, so that the order of the
/// questions does not matter. The same draws serve every start, so starts are compared on the same truths. Not safe across threads.
/// </remarks>
internal sealed class HeldPaths
{
    private readonly ThermalModel model;
    private readonly HoldAhead hold;
    private readonly CutKernel kernel;
    private readonly int blocks;
    private readonly int size;
    private readonly TimeSpan step;
    private readonly int steps;
    private readonly int[] lastStep;
    private readonly SortedList<int, double[]> kept = [];

    public HeldPaths(ThermalModel model, ThermalState state, HoldAhead hold, CutKernel kernel)
    {
        this.model = model;
        this.hold = hold;
        this.kernel = kernel;
        Paths = hold.Cut.Paths;
        blocks = (Paths + PathBlock.Lanes - 1) / PathBlock.Lanes;
        size = kernel.Block.Values.Length;
        lastStep = new int[model.Effects.Count];
        TimeSpan[] durations = [.. model.Effects.Select(effect => FinishCutRisk.Duration(effect, hold.Cut) + hold.Margin)];
        (step, steps) = CutSteps.Of(durations, hold.Cut.Surroundings.Medium, lastStep);
        First = hold.Phases(model.Noise).First().Around.Medium;
        kernel.Start(state, First);
        var begin = new double[blocks * size];
        for (var block = 0; block < blocks; block++)
        {
            kernel.Draw(CutKernel.Chance(hold.Cut.Seed, block));
            kernel.Block.Values.CopyTo(begin, block * size);
        }

        kept.Add(0, begin);
    }

    /// <summary>How many truths.</summary>
    public int Paths { get; }

    private Medium First { get; }

    /// <summary>Whether the kernel knows all that happens; if not, this must not be used.</summary>
    public bool Known => hold.Courses(model.Noise, 0, hold.Horizon.TotalMinutes).All(course => kernel.Knows(course))
        && kernel.Knows(CutFrom(0)) && kernel.Knows(CutFrom((int)hold.Horizon.TotalMinutes));

    /// <summary>Moves the truths to a minute of the grid, from the one kept last, and keeps them there.</summary>
    /// <param name="minute">From now, after those kept before.</param>
    public void Keep(int minute)
    {
        if (kept.ContainsKey(minute))
        {
            return;
        }

        var there = new double[blocks * size];
        for (var block = 0; block < blocks; block++)
        {
            MoveTo(block, minute);
            kernel.Block.Values.CopyTo(there, block * size);
        }

        kept.Add(minute, there);
    }

    /// <summary>On which truths the cut would stay within every budget, asked only of those that are not settled; a settled one is true.</summary>
    /// <param name="minute">From now.</param>
    /// <param name="settled">The truths not asked about, or null to ask about all.</param>
    public bool[] SafeAt(int minute, bool[]? settled)
    {
        bool[] safe = settled is null ? new bool[blocks * PathBlock.Lanes] : [.. settled];

        // Blocks are whole; what lies beyond the last path is not asked.
        safe.AsSpan(Paths).Fill(true);
        for (var block = 0; block < blocks; block++)
        {
            var asked = safe.AsSpan(block * PathBlock.Lanes, PathBlock.Lanes);
            if (asked.Contains(false))
            {
                Start(block, minute);
                kernel.Cut(CutFrom(minute), lastStep, hold.ReprobeAtStart, asked);
                Add(asked);
            }
        }

        return safe;
    }

    /// <summary>Whether the probability of an exceedance is at most so much for every feature, if the cut started at one minute.</summary>
    /// <param name="minute">From now.</param>
    /// <param name="most">The most that is allowed.</param>
    public bool StaysBelow(int minute, double most)
    {
        var exceeded = new int[model.Effects.Count];
        for (var block = 0; block < blocks && exceeded.Max() / (double)Paths <= most; block++)
        {
            Start(block, minute);
            kernel.Cut(CutFrom(minute), lastStep, hold.ReprobeAtStart);
            Count(block, exceeded);
        }

        return exceeded.Max() / (double)Paths <= most;
    }

    private void MoveTo(int block, int minute)
    {
        var from = kept.Keys.Last(known => known <= minute);
        kept[from].AsSpan(block * size, size).CopyTo(kernel.Block.Values);
        kernel.Block.Seed(SplitMix64.Child(CutKernel.Chance(hold.Cut.Seed, block), 1 + from));
        Wait(from, minute);
    }

    /// <summary>Brings a block to the start of the cut.</summary>
    private void Start(int block, int minute)
    {
        MoveTo(block, minute);
        kernel.Block.Seed(SplitMix64.Child(CutKernel.Chance(hold.Cut.Seed, block), -1));
        kernel.Enter(MediumAt(minute), CutFrom(minute).Begins);
    }

    private void Add(Span<bool> safe)
    {
        for (var path = 0; path < safe.Length; path++)
        {
            safe[path] |= !kernel.Features.AnyExceeded(path);
        }
    }

    private CutLegs CutFrom(int minute) => new(hold.Cut, model.Noise, minute, step, steps);

    private Medium MediumAt(int minute) => hold.Courses(model.Noise, 0, minute).Select(course => course.Surroundings.Medium).LastOrDefault(First);

    private void Wait(int from, int to)
    {
        var medium = MediumAt(from);
        foreach (var course in hold.Courses(model.Noise, from, to))
        {
            kernel.Enter(medium, course.Surroundings.Medium);
            medium = course.Surroundings.Medium;
            kernel.Move(course);
        }
    }

    private void Count(int block, int[] exceeded)
    {
        var paths = Math.Min(PathBlock.Lanes, Paths - (block * PathBlock.Lanes));
        for (var f = 0; f < exceeded.Length; f++)
        {
            for (var path = 0; path < paths; path++)
            {
                exceeded[f] += kernel.Features.Exceeded(f, path) ? 1 : 0;
            }
        }
    }
}
