using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>Makes the outlook of a machine from its state, and says when it is worth issuing.</summary>
internal sealed class OutlookMaker(Cell cell, Machine machine)
{
    /// <summary>How long an outlook may be trusted.</summary>
    public static readonly TimeSpan Validity = TimeSpan.FromMinutes(3);

    private static readonly TimeSpan RenewEvery = TimeSpan.FromMinutes(1);

    // A probability of the past is told to a few hundredths.
    private const int PathsLookingBack = 200;

    // Smaller changes than this are not worth a message.
    private const double NewsMicrometres = 0.05;

    public static Outlook BeforeTheFirst(Machine machine, DateTimeOffset now) => new()
    {
        Machine = machine.Id,
        Level = Level.NoJob,
        Reason = "Nothing has come in yet.",
        Action = "Load a part; the outlook starts with it.",
        Seq = 0,
        IssuedAt = now,
        ValidUntil = now,
    };

    /// <summary>Why nothing can be computed, or null.</summary>
    public string? WhyNotKnown(MachineState state)
    {
        if (state.Job is not { } job)
        {
            return null;
        }

        if (cell.FindPart(job.Part) is null)
        {
            return $"part {job.Part} is not in the plant file ({NearestNames.Hint(job.Part, [.. cell.Parts.Select(p => p.Number)])})";
        }

        if (state.Climate.AirMissingBecause is { } air || state.Thermal is null)
        {
            return $"the air at {machine.Id} is not known: {state.Climate.AirMissingBecause ?? "no reading yet"}";
        }

        return Around.CoolantIsMissing(state)
            ? $"coolant runs but its temperature is not known: {state.Climate.CoolantMissingBecause ?? "the machine has no coolant sensor"}"
            : null;
    }

    /// <summary>Renews the outlook when it is due.</summary>
    public (MachineState State, IReadOnlyList<Decision> Decisions) Renew(MachineState state, ThermalModel model, TimingCause cause, Evaluation? ready = null)
    {
        if (state.Job is null || WhyNotKnown(state) is { } || state.Override is { InForce: true })
        {
            var timed = Timed(state, LevelWithoutComputing(state));
            return Issue(timed, model, Plain(timed));
        }

        var effects = EffectsNow(model, state.Thermal!);
        if (ready is null && cause == TimingCause.Tick && IsCurrent(state, model, effects))
        {
            return (WithTrace(state, model, state.Outlook!), []);
        }

        var cut = Evaluation.Cut(machine, state, null);
        var evaluation = ready ?? Evaluation.Of(model, state, cut, state.Over(cell.Description.Policies));
        if (state.Offset is not null)
        {
            return RenewWithOffset(state with { EvaluatedAt = state.At, EvaluatedMicrometres = effects }, model, cause, evaluation);
        }

        var timing = state.Timing.Next(evaluation.Level, evaluation.ReleasesHold, evaluation.ReleasesMeasure, state.At, cause);
        var next = state with { EvaluatedAt = state.At, EvaluatedMicrometres = effects, Timing = timing };
        next = next with { Prospect = ProspectFor(next, model, evaluation, cause) };
        return Issue(next, model, Known(next, model, evaluation));
    }

    /// <summary>What a cut that starts now is expected to do, for who looks back: no level is held or released by it, and no other start is looked for.</summary>
    public MachineState LookBack(MachineState state, ThermalModel model)
    {
        if (state.Job is null || WhyNotKnown(state) is { }) return state;
        var cut = Evaluation.Cut(machine, state, null) with { Paths = PathsLookingBack };
        var evaluation = Evaluation.Of(model, state, cut, state.Over(cell.Description.Policies));
        var outlook = Base(state) with { Level = evaluation.Level, Worst = evaluation.WorstFeature, Features = evaluation.Features };
        return state with { Outlook = outlook, Seq = outlook.Seq };
    }

    private (MachineState State, IReadOnlyList<Decision> Decisions) RenewWithOffset(
        MachineState state, ThermalModel model, TimingCause cause, Evaluation evaluation)
    {
        var kept = cause == TimingCause.Tick && state.Prospect is { } prospect && state.At - prospect.At < Prospect.KeptFor ? state.Prospect : null;
        var view = OffsetView.Of(cell, machine, model, state, evaluation, kept);
        var next = state with { Timing = state.Timing.Next(view.Level, view.Fits, view.Fits, state.At, cause), Prospect = view.Prospect };
        var actions = view.Actions(next);
        return Issue(next, model, Known(next, model, evaluation) with
        {
            Worst = view.Worst,
            Features = [view.Worst],
            Start = null,
            Reason = view.Reason(),
            Cause = view.Cause(),
            Action = actions[0],
            Actions = actions,
        });
    }

    private static Level LevelWithoutComputing(MachineState state) => state.Job is null ? Level.NoJob
        : state.Override is { InForce: true } ? Level.Bypassed
        : Level.NotKnown;

    private static MachineState Timed(MachineState state, Level level) => state with
    {
        Timing = state.Timing.Next(level, true, true, state.At, TimingCause.Tick), Prospect = null,
    };

    private Prospect? ProspectFor(MachineState state, ThermalModel model, Evaluation evaluation, TimingCause cause)
    {
        if (state.Timing.Shown is not (Level.Hold or Level.MeasureFirst) || state.Cut is not null)
        {
            return null;
        }

        return cause == TimingCause.Tick && state.Prospect is { } kept && kept.IsCurrentAt(state.At, state.Timing.Since)
            ? kept
            : Prospect.Of(cell, machine, model, state, evaluation);
    }

    private static double[] EffectsNow(ThermalModel model, ThermalState state) =>
        [.. model.Effects.Select(effect => effect.At(model, state).EffectMicrometres)];

    private static bool IsCurrent(MachineState state, ThermalModel model, double[] effects)
    {
        if (state.EvaluatedAt is not { } at || state.At - at >= RenewEvery || state.EvaluatedMicrometres.Count != effects.Length
            || state.Outlook is not { Level: not (Level.NotKnown or Level.NoJob or Level.Bypassed) })
        {
            return false;
        }

        for (var i = 0; i < effects.Length; i++)
        {
            var news = Math.Max(NewsMicrometres, 0.005 * model.Effects[i].BudgetMicrometres);
            if (Math.Abs(effects[i] - state.EvaluatedMicrometres[i]) > news)
            {
                return false;
            }
        }

        return true;
    }

    private Outlook Known(MachineState state, ThermalModel model, Evaluation evaluation)
    {
        var words = new OutlookWords(cell, machine, state, model, evaluation.WorstRisk, evaluation.WorstFeature);
        var actions = words.Actions();
        return Base(state) with
        {
            Worst = evaluation.WorstFeature,
            Features = evaluation.Features,
            PartCelsius = model.PartTemperature(state.Thermal!).Value,
            PartUncertaintyKelvins = model.PartUncertainty(state.Thermal!).Value,
            ScaleCelsius = state.Thermal![StateLayout.Scale],
            Start = state.Prospect?.StartFrom(state.At),
            Reason = words.Reason(),
            Cause = words.Cause(),
            Action = actions[0],
            Actions = actions,
            CutDuration = evaluation.WorstRisk.Duration,
        };
    }

    private Outlook Plain(MachineState state)
    {
        if (state.Job is null)
        {
            return Base(state) with { Reason = "Nothing is loaded.", Action = "Load a part; the outlook starts with it." };
        }

        if (state.Override is { InForce: true } taken)
        {
            return Base(state) with
            {
                Reason = $"{taken.By}{(taken.SecondBy is null ? "" : $" and {taken.SecondBy}")} took the responsibility: {taken.Reason}.",
                Action = "The cut may start on their responsibility; inspect this part first.",
            };
        }

        var because = WhyNotKnown(state)!;
        return Base(state) with
        {
            Reason = char.ToUpperInvariant(because[0]) + because[1..] + ".",
            Action = OutlookWords.WhenNotKnown(cell.FindPart(state.Job.Part)?.Class ?? PartClass.Critical),
        };
    }

    private Outlook Base(MachineState state) => new()
    {
        Machine = machine.Id,
        Serial = state.Job?.Serial ?? "",
        Part = state.Job?.Part ?? "",
        Operation = state.Job?.Operation ?? "",
        Level = state.Timing.Shown,
        Reason = "",
        Action = "",
        Seq = state.Seq + 1,
        IssuedAt = state.At,
        ValidUntil = state.At + Validity,
    };

    private static (MachineState State, IReadOnlyList<Decision> Decisions) Issue(MachineState state, ThermalModel model, Outlook outlook)
    {
        var last = state.Outlook;
        var changed = last is null || Differs(last, outlook);
        if (!changed && !NumbersMoved(last!, outlook) && state.At - last!.IssuedAt < RenewEvery)
        {
            return (WithTrace(state, model, last), []);
        }

        outlook = outlook with { Actions = outlook.Actions.Count > 0 ? outlook.Actions : [outlook.Action] };
        var next = WithTrace(state with { Outlook = outlook, Seq = outlook.Seq }, model, outlook);
        return (next, [new OutlookIssued(state.At, outlook, changed), .. Alerts.Between(last, outlook, state.At)]);
    }

    private static bool Differs(Outlook last, Outlook next) =>
        (last.Level, last.Serial, last.Part, last.Operation, last.Worst?.Feature) != (next.Level, next.Serial, next.Part, next.Operation, next.Worst?.Feature)
        || (next.Level is Level.NotKnown or Level.Bypassed && last.Reason != next.Reason)
        || WithoutNumbers(last.Action) != WithoutNumbers(next.Action);

    /// <summary>Minutes that count down do not make another action.</summary>
    private static string WithoutNumbers(string action) => string.Concat(action.Where(c => !char.IsAsciiDigit(c)));

    private static bool NumbersMoved(Outlook last, Outlook next) =>
        last.Worst is { } a && next.Worst is { } b
        && (Math.Abs(a.EffectMicrometres - b.EffectMicrometres) > NewsMicrometres || Math.Abs(a.Probability - b.Probability) > 0.01);

    private static MachineState WithTrace(MachineState state, ThermalModel model, Outlook outlook)
    {
        if (!state.Trace.WantsPointAt(state.At))
        {
            return state;
        }

        var climate = state.Climate;
        var known = state.Thermal is not null && climate.AirMissingBecause is null;
        var worst = outlook.Worst is null ? null : model.Effects.FirstOrDefault(effect => effect.Feature.Id == outlook.Worst.Feature);
        return state with
        {
            Trace = state.Trace.With(new TracePoint(
                state.At,
                known ? climate.AirCelsius : double.NaN,
                climate.CoolantCelsius,
                known && state.JobIsIn ? model.PartTemperature(state.Thermal!).Value : double.NaN,
                known ? state.Thermal![StateLayout.Scale] : double.NaN,
                worst?.Feature.Id,
                known && worst is not null ? worst.At(model, state.Thermal!).EffectMicrometres : double.NaN,
                worst?.BudgetMicrometres ?? double.NaN,
                outlook.Level)),
        };
    }
}
