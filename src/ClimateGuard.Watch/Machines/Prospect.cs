using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>What to do about a cut that may not start, and when it could; costly, so it is kept for five minutes.</summary>
/// <remarks>
/// An event at the machine, a request and another level shown work it out anew; else what is shown is at most <see cref="KeptFor"/> old, and
/// its earliest start counts down meanwhile.
/// </remarks>
/// <param name="At">When it was worked out.</param>
/// <param name="Start">When the cut could start with the machine held as it is.</param>
/// <param name="Actions">What can be done, the best first, in words.</param>
/// <param name="Offset">The offset that a setter could set, or null.</param>
public sealed record Prospect(DateTimeOffset At, EarliestStart Start, IReadOnlyList<string> Actions, ProposedOffset? Offset = null)
{
    /// <summary>How long it is kept while nothing happens.</summary>
    public static readonly TimeSpan KeptFor = TimeSpan.FromMinutes(5);

    // Ranking compares courses, it does not measure them finely.
    private const int Paths = 400;

    /// <summary>Whether it still stands: neither old, nor of another level, nor is the start it promised due.</summary>
    /// <param name="now">The moment.</param>
    /// <param name="levelSince">Since when the level is shown.</param>
    public bool IsCurrentAt(DateTimeOffset now, DateTimeOffset levelSince) =>
        now - At < KeptFor && At >= levelSince && (Start is not SafeAt later || now - At < later.Release);

    /// <summary>When the cut could start, counted from a later moment.</summary>
    /// <param name="now">The moment.</param>
    public EarliestStart StartFrom(DateTimeOffset now)
    {
        var gone = now - At;
        return Start is SafeAt later
            ? new SafeAt(Less(later.Release, gone), Less(later.Low, gone), Less(later.Median, gone), Less(later.High, gone))
            : Start;
    }

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
        var words = ActionWords.Of(actions, OutlookWords.DriftDecides(model, state, evaluation.WorstRisk), state.SpanIsKnown);
        return new Prospect(state.At, start, words, ProposedOffset.Of(actions));
    }

    private static TimeSpan Less(TimeSpan time, TimeSpan gone) => time > gone ? time - gone : TimeSpan.Zero;

    private static TimeSpan? Less(TimeSpan? time, TimeSpan gone) => time is { } known ? Less(known, gone) : null;

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
