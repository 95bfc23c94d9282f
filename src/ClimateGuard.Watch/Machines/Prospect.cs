using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>What to do about a cut that may not start, and when it could; costly, so it is kept for three minutes.</summary>
/// <param name="At">When it was worked out.</param>
/// <param name="Start">When the cut could start with the machine held as it is.</param>
/// <param name="Actions">What can be done, the best first, in words.</param>
public sealed record Prospect(DateTimeOffset At, EarliestStart Start, IReadOnlyList<string> Actions)
{
    private static readonly TimeSpan KeptFor = TimeSpan.FromMinutes(3);

    // Ranking compares courses, it does not measure them finely.
    private const int Paths = 400;

    /// <summary>Whether it still stands.</summary>
    /// <param name="now">The moment.</param>
    public bool IsCurrentAt(DateTimeOffset now) => now - At < KeptFor;

    internal static Prospect? Of(Cell cell, Machine machine, ThermalModel model, MachineState state, Evaluation evaluation)
    {
        var now = Around.Of(machine, state, state.At);
        var cut = Evaluation.Cut(machine, state, null) with { Paths = Paths };
        var wetBulb = double.IsNaN(now.WetBulbCelsius) ? Around.WetBulb(state.Climate) : now.WetBulbCelsius;
        var question = new ActionQuestion
        {
            Model = model,
            State = state.Thermal!,
            Hold = new HoldAhead
            {
                Now = now with { WetBulbCelsius = wetBulb },
                WetFor = now.Medium == Medium.Wet ? cut.WetFor : null,
                Cut = cut with { Surroundings = cut.Surroundings with { WetBulbCelsius = wetBulb } },
            },
            Policies = state.Over(cell.Description.Policies),
            Coolant = double.IsNaN(state.Climate.CoolantCelsius) || machine.CoolantMedium == CoolantMedium.Mist ? null : new Celsius(state.Climate.CoolantCelsius),
        };
        if (Played(question) is not { } actions)
        {
            return null;
        }

        var start = actions.Where(action => action.Kind == ActionKind.Soak).Select(action => action.Start).FirstOrDefault()
            ?? new NotWithinForecast(question.Hold.Horizon, 0);
        return new Prospect(state.At, start, ActionWords.Of(actions, OutlookWords.DriftDecides(model, state, evaluation.WorstRisk)));
    }

    /// <summary>The actions played through; null for a state so odd that the model cannot forecast it: then the hold stands without a time.</summary>
    private static IReadOnlyList<RankedAction>? Played(ActionQuestion question)
    {
        try
        {
            return RankedActions.For(question);
        }
        catch (NotSupportedException)
        {
            return null;
        }
    }
}
