using System.Runtime.CompilerServices;

namespace ClimateGuard.Thermal;

/// <summary>The fast twin of <see cref="CutPaths"/>: the same paths, sixty-four side by side, with every buffer kept for the next question.</summary>
/// <remarks>
/// One for each model, rented for a question and given back, so that a question allocates nothing once its step was seen before. Each block of
/// paths has its own stream from the seed, so more paths, more steps or more features leave the draws of the others as they are.
/// The same machine-independent numbers follow but for the last digit of the model's own exponentials. Not safe across threads.
/// </remarks>
internal sealed class CutKernel
{
    private const int MostPlans = 16;

    /// <summary>A draw of ln τ beyond so many deviations is taken as this one; 6 in 10 million are.</summary>
    private const double ReachDeviations = 5;

    private static readonly ConditionalWeakTable<ThermalModel, Slot> Spare = [];

    private readonly ThermalModel model;
    private readonly KernelLayout layout;
    private readonly ThermalState begin;
    private readonly double[] root;
    private readonly int[] lastStep;
    private readonly int[] exceeded;
    private readonly List<StepPlan> plans = new(MostPlans);
    private readonly Dictionary<(Medium From, Medium To), MediumChange> changes = [];
    private double reach;

    private CutKernel(ThermalModel model)
    {
        this.model = model;
        layout = new KernelLayout(model);
        Block = new PathBlock(layout);
        Features = new FeatureLanes(model, layout);
        begin = new ThermalState(model.Layout.Count);
        root = new double[begin.Count * begin.Count];
        lastStep = new int[Features.Count];
        exceeded = new int[Features.Count];
    }

    /// <summary>The paths in work.</summary>
    public PathBlock Block { get; }

    /// <summary>What the features see of them.</summary>
    public FeatureLanes Features { get; }

    /// <summary>A kernel nobody else uses.</summary>
    public static CutKernel Rent(ThermalModel model) => Interlocked.Exchange(ref SlotOf(model).Kernel, null) ?? new CutKernel(model);

    /// <summary>Gives it back for the next question.</summary>
    public void Return() => Volatile.Write(ref SlotOf(model).Kernel, this);

    /// <summary>The share of paths that exceed, one for each feature.</summary>
    /// <param name="state">The state at the begin; it is not changed.</param>
    /// <param name="cut">The cut.</param>
    /// <param name="durations">The duration for each feature.</param>
    /// <param name="probabilities">Where the shares go.</param>
    /// <returns>False when the model does something this kernel does not know; then nothing is written.</returns>
    public bool TryExceedance(ThermalState state, CutAhead cut, ReadOnlySpan<TimeSpan> durations, Span<double> probabilities)
    {
        var (step, steps) = CutSteps.Of(durations, cut.Surroundings.Medium, lastStep);
        var legs = new CutLegs(cut, model.Noise, 0, step, steps);
        Start(state, legs.Begins);
        if (!Knows(legs))
        {
            return false;
        }

        Array.Clear(exceeded);
        for (var first = 0; first < cut.Paths; first += PathBlock.Lanes)
        {
            Draw(Chance(cut.Seed, first / PathBlock.Lanes));
            Cut(legs, lastStep, reprobed: false);
            Count(Math.Min(PathBlock.Lanes, cut.Paths - first));
        }

        for (var f = 0; f < exceeded.Length; f++)
        {
            probabilities[f] = exceeded[f] / (double)cut.Paths;
        }

        return true;
    }

    /// <summary>Takes a state as the begin of all paths.</summary>
    public void Start(ThermalState state, Medium medium)
    {
        state.CopyTo(begin);
        model.EnterMedium(begin, medium);
        CovarianceRoot.Fill(begin.Covariance, begin.Count, root);
        var needed = Math.Abs(begin[StateLayout.LogTimeConstant]) + (ReachDeviations * begin.StandardDeviation(StateLayout.LogTimeConstant));

        // Plans are kept by reach: rounding it up makes the next question find the same one.
        reach = needed == 0 ? 0 : Math.Ceiling(needed / 0.25) * 0.25;
    }

    /// <summary>Whether this kernel says the same as the model over a course.</summary>
    public bool Knows(in PathCourse course) => course.Steps == 0 || PlanFor(course.Surroundings.Medium, course.Step.TotalSeconds).Understood;

    /// <summary>Whether this kernel says the same as the model over a cut.</summary>
    public bool Knows(in CutLegs legs) => Knows(legs.From(0)) && Knows(legs.From(Math.Max(0, legs.Steps - 1)));

    /// <summary>Draws the begin of one block of paths.</summary>
    public void Draw(ulong seed)
    {
        Block.Seed(seed);
        Block.Draw(begin.Mean, root, model.Effects[0]);
    }

    /// <summary>The part of every path comes into another medium.</summary>
    public void Enter(Medium from, Medium to)
    {
        if (from == to)
        {
            return;
        }

        if (!changes.TryGetValue((from, to), out var change))
        {
            change = MediumChange.Read(model, layout, from, to);
            changes.Add((from, to), change);
        }

        change.Apply(Block);
    }

    /// <summary>Moves the block along a course.</summary>
    public void Move(in PathCourse course)
    {
        if (course.Steps == 0)
        {
            return;
        }

        var (keep, kick) = AirMemory(course);
        Block.Enter(PlanFor(course.Surroundings.Medium, course.Step.TotalSeconds), course.Surroundings);
        for (var k = 0; k < course.Steps; k++)
        {
            Block.Step(course.AirAt(k), keep, kick);
        }
    }

    /// <summary>Moves the block through a cut and keeps the worst of each feature; it ends where nothing that is asked can change any more.</summary>
    /// <param name="legs">The cut.</param>
    /// <param name="lastStepOfFeature">The last step of each feature.</param>
    /// <param name="reprobed">The datum is probed at the begin.</param>
    /// <param name="settled">Empty: it is asked which features exceed; else only whether any does, on the paths that are not settled yet.</param>
    public void Cut(in CutLegs legs, ReadOnlySpan<int> lastStepOfFeature, bool reprobed, ReadOnlySpan<bool> settled = default)
    {
        Features.Begin(Block, reprobed);
        Features.Look(Block, legs.Begins, 0, lastStepOfFeature);
        var medium = legs.Begins;
        for (var step = 0; step < legs.Steps;)
        {
            var course = legs.From(step);
            Enter(medium, course.Surroundings.Medium);
            medium = course.Surroundings.Medium;
            Cut(course, step, lastStepOfFeature, settled);
            step += course.Steps;
        }
    }

    private void Cut(in PathCourse course, int stepsBefore, ReadOnlySpan<int> lastStepOfFeature, ReadOnlySpan<bool> settled)
    {
        if (course.Steps == 0)
        {
            return;
        }

        var medium = course.Surroundings.Medium;
        var (keep, kick) = AirMemory(course);
        Block.Enter(PlanFor(medium, course.Step.TotalSeconds), course.Surroundings);
        for (var k = 0; k < course.Steps && !(settled.IsEmpty ? Features.AllOut(stepsBefore + k, lastStepOfFeature) : Features.NoneSafe(settled)); k++)
        {
            Block.Step(course.AirAt(k), keep, kick);
            Features.Look(Block, medium, stepsBefore + k + 1, lastStepOfFeature);
        }
    }

    /// <summary>The seed of one block of paths.</summary>
    public static ulong Chance(int seed, int block) => SplitMix64.Child(unchecked((ulong)seed), block);

    private (double Keep, double Kick) AirMemory(in PathCourse course)
    {
        var keep = Math.Exp(-(course.Step / model.Noise.AirForecastMemory));
        return (keep, course.Cut.AirSpread(model.Noise) * Math.Sqrt(1 - (keep * keep)));
    }

    private static Slot SlotOf(ThermalModel model) => Spare.GetValue(model, static _ => new Slot());

    private void Count(int paths)
    {
        for (var f = 0; f < exceeded.Length; f++)
        {
            for (var path = 0; path < paths; path++)
            {
                exceeded[f] += Features.Exceeded(f, path) ? 1 : 0;
            }
        }
    }

    private StepPlan PlanFor(Medium medium, double seconds)
    {
        foreach (var known in plans)
        {
            if (known.Medium == medium && known.Seconds == seconds && known.Reach == reach)
            {
                return known;
            }
        }

        if (plans.Count == MostPlans)
        {
            plans.RemoveAt(0);
        }

        var plan = new StepProbe(model, medium, seconds).Plan(layout, reach);
        plans.Add(plan);
        return plan;
    }

    /// <summary>The place of the kernel that is free.</summary>
    private sealed class Slot
    {
        public CutKernel? Kernel;
    }
}
