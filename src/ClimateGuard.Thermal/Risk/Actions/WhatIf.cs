using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Plays through what would become of a state and of the cut, for the actions.</summary>
internal sealed class WhatIf(ActionQuestion question)
{
    /// <summary>How long probing the datum takes (common practice, no source).</summary>
    public const double ReprobeMinutes = 2;

    private static readonly Axis[] AllAxes = [Axis.X, Axis.Y, Axis.Z];

    public ActionQuestion Question { get; } = question;

    public ThermalModel Model => Question.Model;

    public CutAhead Cut => Question.Hold.Cut;

    public ThermalState Now() => Question.State.Copy();

    /// <summary>What surrounds the machine while it is held at some minute.</summary>
    public Surroundings Held(double minutes) =>
        Question.Hold.Phases(Model.Noise).First(phase => minutes < phase.UntilMinutes).Around;

    /// <summary>Moves a state through some minutes of an exposure; the air follows its forecast.</summary>
    public void Spend(ThermalState state, Surroundings around, double fromMinutes, double minutes)
    {
        var steps = (int)Math.Ceiling(minutes - 1e-9);
        if (steps <= 0)
        {
            return;
        }

        var course = new PathCourse(around, Cut, fromMinutes, TimeSpan.FromMinutes(minutes / steps), steps);
        for (var step = 0; step < steps; step++)
        {
            Model.Advance(state, around with { AirCelsius = course.AirAt(step) }, course.Step);
        }
    }

    /// <summary>Moves a state through some minutes of the cut; the air follows its forecast, and a wet part dries.</summary>
    public void SpendCutting(ThermalState state, double fromMinutes, double minutes)
    {
        var steps = (int)Math.Ceiling(minutes - 1e-9);
        for (var step = 0; step < steps; step++)
        {
            Cut.Advance(Model, state, fromMinutes + (step * minutes / steps), TimeSpan.FromMinutes(minutes / steps));
        }
    }

    /// <summary>Probes the datum again, which takes its time.</summary>
    public double Reprobe(ThermalState state, Surroundings around, double fromMinutes)
    {
        Spend(state, around, fromMinutes, ReprobeMinutes);
        Model.ProbeDatum(state, AllAxes);
        return fromMinutes + ReprobeMinutes;
    }

    /// <summary>How the cut would stand if it started in this state after some minutes.</summary>
    public ActionResult Start(ThermalState state, double afterMinutes) => ResultOf(
        FinishCutRisk.Over(Model, state, Shifted(afterMinutes), Question.Policies), Guarded(state.Copy(), afterMinutes));

    /// <summary>Whether the cut could be released in this state, the cheap test first.</summary>
    public bool IsSafe(ThermalState state, double afterMinutes) => Guarded(state.Copy(), afterMinutes) && Start(state, afterMinutes).Safe;

    /// <summary>The fewest whole minutes in [1, most] after which a situation is safe, or null; later is taken to be safer.</summary>
    public static int? Fewest(int most, Func<int, bool> safe)
    {
        if (most < 1 || !safe(most))
        {
            return null;
        }

        var (outside, inside) = (0, most);
        while (inside - outside > 1)
        {
            var middle = (outside + inside) / 2;
            (outside, inside) = safe(middle) ? (outside, middle) : (middle, inside);
        }

        return inside;
    }

    /// <summary>The cut, its air counted from its own start.</summary>
    public CutAhead Shifted(double minutes)
    {
        var cut = Cut with { WetFor = TimeSpan.FromMinutes(Math.Max(0, Cut.WetUntil(Model.Noise).TotalMinutes - minutes)) };
        return cut.AirCelsius.Count == 0 ? cut : cut with { AirCelsius = [.. cut.AirCelsius.Skip(Math.Min((int)minutes, cut.AirCelsius.Count - 1))] };
    }

    /// <summary>The same situation with a part that is dry from now on.</summary>
    public WhatIf Dry() => new(Question with
    {
        Hold = Question.Hold with { WetFor = TimeSpan.Zero, Cut = Cut with { WetFor = TimeSpan.Zero } },
    });

    /// <summary>The result for the feature with the highest probability, and among equals the fullest budget.</summary>
    public ActionResult ResultOf(IReadOnlyList<FeatureRisk> risks, bool guarded)
    {
        var worst = risks.OrderByDescending(risk => risk.Probability).ThenByDescending(risk => Fullness(risk.Worst, risk.BudgetMicrometres)).First();
        var safe = guarded && worst.Probability <= Question.Policies.Probability.ReleaseHold;
        return new(worst.Probability, worst.Feature.Id, worst.Worst, worst.BudgetMicrometres, safe);
    }

    private static double Fullness(FeatureEffect effect, double budget) => (Math.Abs(effect.EffectMicrometres) + effect.UMicrometres) / budget;

    private bool Guarded(ThermalState state, double afterMinutes) =>
        GuardBand.Holds(Model, state, Cut, afterMinutes, Question.Hold.Margin, Question.Policies.GuardFactor);
}
