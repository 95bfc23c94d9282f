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

    /// <summary>How the cut would go if it started at one minute.</summary>
    /// <param name="minute">From now.</param>
    /// <param name="keep">It is one of the grid.</param>
    public StartOutcome At(int minute, bool keep)
    {
        var from = kept.Keys.Last(known => known <= minute);
        var there = from == minute ? kept[from] : keep ? kept[minute] = new double[blocks * size] : null;
        var safe = new bool[Paths];
        var exceeded = new int[model.Effects.Count];
        var medium = MediumAt(minute);
        var cut = CutFrom(minute);
        for (var block = 0; block < blocks; block++)
        {
            kept[from].AsSpan(block * size, size).CopyTo(kernel.Block.Values);
            kernel.Block.Seed(SplitMix64.Child(CutKernel.Chance(hold.Cut.Seed, block), 1 + from));
            Wait(from, minute);
            if (from != minute && there is not null)
            {
                kernel.Block.Values.CopyTo(there, block * size);
            }

            kernel.Block.Seed(SplitMix64.Child(CutKernel.Chance(hold.Cut.Seed, block), -1));
            kernel.Enter(medium, cut.Begins);
            kernel.Cut(cut, lastStep, hold.ReprobeAtStart);
            Count(block, safe, exceeded);
        }

        return new(safe, exceeded.Max() / (double)Paths);
    }

    private CutLegs CutFrom(int minute) => CutLegs.Of(hold.Cut, model.Noise, minute, step, steps);

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
