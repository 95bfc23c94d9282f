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

    // Places for whole blocks; those beyond the last path are not counted.
    private int Lanes => blocks * PathBlock.Lanes;

    /// <summary>How many truths.</summary>
    public int Paths { get; }

    private Medium First { get; }

    /// <summary>Whether the kernel knows all that happens; if not, this must not be used.</summary>
    public bool Known => hold.Courses(model.Noise, 0, hold.Horizon.TotalMinutes).Append(CutFrom(0)).All(course => kernel.Knows(course));

    /// <summary>How the cut would go if it started at one minute.</summary>
    /// <param name="minute">From now, one of the grid.</param>
    public StartOutcome At(int minute)
    {
        var from = Keep(minute, out var there);
        var safe = new bool[Lanes];
        var exceeded = new int[model.Effects.Count];
        for (var block = 0; block < blocks; block++)
        {
            Start(block, from, minute, there);
            kernel.Cut(CutFrom(minute), lastStep, hold.ReprobeAtStart);
            Count(block, safe, exceeded);
        }

        return new(safe, exceeded.Max() / (double)Paths);
    }

    /// <summary>On which truths the cut would stay within every budget, asked only of those that are not settled; a settled one is true.</summary>
    /// <param name="minute">From now.</param>
    /// <param name="keep">It is one of the grid.</param>
    /// <param name="settled">The truths not asked about, or null to ask about all.</param>
    public bool[] SafeAt(int minute, bool keep, bool[]? settled)
    {
        double[]? there = null;
        var from = keep ? Keep(minute, out there) : KeptBefore(minute);
        bool[] safe = settled is null ? new bool[Lanes] : [.. settled];
        for (var path = Paths; path < safe.Length; path++)
        {
            safe[path] = true;
        }

        for (var block = 0; block < blocks; block++)
        {
            var asked = safe.AsSpan(block * PathBlock.Lanes, PathBlock.Lanes);
            if (keep || asked.Contains(false))
            {
                Start(block, from, minute, there);
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
        var from = KeptBefore(minute);
        var safe = new bool[Lanes];
        var exceeded = new int[model.Effects.Count];
        for (var block = 0; block < blocks && exceeded.Max() / (double)Paths <= most; block++)
        {
            Start(block, from, minute, null);
            kernel.Cut(CutFrom(minute), lastStep, hold.ReprobeAtStart);
            Count(block, safe, exceeded);
        }

        return exceeded.Max() / (double)Paths <= most;
    }

    private int KeptBefore(int minute) => kept.Keys.Last(known => known <= minute);

    private int Keep(int minute, out double[]? there)
    {
        var from = KeptBefore(minute);
        there = from == minute ? null : kept[minute] = new double[blocks * size];
        return from;
    }

    /// <summary>Brings a block to the start of the cut, and keeps it there when there is a place for it.</summary>
    private void Start(int block, int from, int minute, double[]? there)
    {
        kept[from].AsSpan(block * size, size).CopyTo(kernel.Block.Values);
        kernel.Block.Seed(SplitMix64.Child(CutKernel.Chance(hold.Cut.Seed, block), 1 + from));
        Wait(from, minute);
        if (there is not null)
        {
            kernel.Block.Values.CopyTo(there, block * size);
        }

        kernel.Block.Seed(SplitMix64.Child(CutKernel.Chance(hold.Cut.Seed, block), -1));
        kernel.Enter(MediumAt(minute), hold.Cut.Surroundings.Medium);
    }

    private void Add(Span<bool> safe)
    {
        for (var path = 0; path < safe.Length; path++)
        {
            safe[path] |= !kernel.Features.AnyExceeded(path);
        }
    }

    private PathCourse CutFrom(int minute) => new(hold.Cut.Surroundings, hold.Cut.AirCelsius, minute, step, steps);

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

    private void Count(int block, bool[] safe, int[] exceeded)
    {
        for (var path = 0; path < PathBlock.Lanes && (block * PathBlock.Lanes) + path < Paths; path++)
        {
            var all = true;
            for (var f = 0; f < exceeded.Length; f++)
            {
                var outside = kernel.Features.Exceeded(f, path);
                exceeded[f] += outside ? 1 : 0;
                all &= !outside;
            }

            safe[(block * PathBlock.Lanes) + path] = all;
        }
    }
}

/// <summary>How a cut would go that starts at one minute.</summary>
/// <param name="Safe">On which truths every feature stays within its budget.</param>
/// <param name="Probability">The probability of an exceedance of the worst feature.</param>
internal sealed record StartOutcome(bool[] Safe, double Probability);
