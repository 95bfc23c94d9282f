using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>Makes the outlook of a machine from its state, and says when it is worth issuing.</summary>
internal sealed class OutlookMaker(Cell cell, Machine machine)
{
    /// <summary>How long an outlook may be trusted.</summary>
    public static readonly TimeSpan Validity = TimeSpan.FromMinutes(3);

    private static readonly TimeSpan RenewEvery = TimeSpan.FromMinutes(1);

    // Smaller changes than this are not worth a message.
    private const double NewsMicrometres = 0.05;

    public (MachineState State, IReadOnlyList<Decision> Decisions) Renew(MachineState state, ThermalModel model, DateTimeOffset now, bool urgent)
    {
        var evaluated = state;
        Outlook outlook;
        if (WhyNotKnown(state) is { } because)
        {
            outlook = Unknown(state, because, now);
        }
        else if (state.Job is null)
        {
            outlook = Idle(state, now);
        }
        else
        {
            var effects = EffectsNow(model, state.Thermal!);
            if (!urgent && IsCurrent(state, model, effects, now))
            {
                return (WithTrace(state, model, state.Outlook!), []);
            }

            evaluated = state with { EvaluatedAt = now, EvaluatedMicrometres = effects };
            outlook = Known(state, model, now);
        }

        return Issue(evaluated, model, outlook, now);
    }

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

    private string? WhyNotKnown(MachineState state)
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

    private static double[] EffectsNow(ThermalModel model, ThermalState state) =>
        [.. model.Effects.Select(effect => effect.At(model, state).EffectMicrometres)];

    private static bool IsCurrent(MachineState state, ThermalModel model, double[] effects, DateTimeOffset now)
    {
        if (state.EvaluatedAt is not { } at || now - at >= RenewEvery || state.EvaluatedMicrometres.Count != effects.Length
            || state.Outlook is not { Level: not (Level.NotKnown or Level.NoJob) })
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

    private Outlook Known(MachineState state, ThermalModel model, DateTimeOffset now)
    {
        var job = state.Job!;
        var cut = new CutAhead { Surroundings = Around.Of(machine, state, now), Planned = job.Planned, Seed = SeedOf(job) };
        var risks = FinishCutRisk.Over(model, state.Thermal!, cut, cell.Description.Policies);
        var features = risks.Select(risk => ToOutlook(risk, cell.Description.Policies)).ToArray();
        var worst = IndexOfWorst(features);
        var words = new OutlookWords(cell, machine, state, model, risks[worst], features[worst]);
        return Base(state, now, features[worst].Level) with
        {
            Worst = features[worst],
            Features = features,
            PartCelsius = model.PartTemperature(state.Thermal!).Value,
            PartUncertaintyKelvins = model.PartUncertainty(state.Thermal!).Value,
            ScaleCelsius = state.Thermal![StateLayout.Scale],
            Reason = words.Reason(),
            Cause = words.Cause(),
            Action = words.Actions()[0],
            Actions = words.Actions(),
            CutDuration = risks[worst].Duration,
        };
    }

    private int SeedOf(JobLoaded job)
    {
        // The same job gets the same paths each time, on every machine of every make: no string hash of the runtime.
        var seed = 17;
        foreach (var c in machine.Id + "|" + job.Serial + "|" + job.Operation)
        {
            seed = unchecked((seed * 31) + c);
        }

        return seed & int.MaxValue;
    }

    private static FeatureOutlook ToOutlook(FeatureRisk risk, Policies policies) => new()
    {
        Feature = risk.Feature.Id,
        EffectMicrometres = risk.Now.EffectMicrometres,
        DriftMicrometres = risk.Now.DriftMicrometres,
        MismatchMicrometres = risk.Now.MismatchMicrometres,
        UMicrometres = risk.Now.UMicrometres,
        BudgetMicrometres = risk.BudgetMicrometres,
        ToleranceMicrometres = risk.Feature.ToleranceMillimetres * 1000,
        Probability = risk.Probability,
        WorstMicrometres = risk.Worst.EffectMicrometres,
        WorstAfter = risk.WorstAfter,
        Level = risk.Answer switch
        {
            Answer.Hold => Level.Hold,
            Answer.Measure => Level.MeasureFirst,
            _ => risk.Probability >= policies.Probability.Watch ? Level.Watch : Level.Ready,
        },
        TrailMicrometres = [.. risk.Trail.Select(effect => effect.EffectMicrometres)],
    };

    private static int IndexOfWorst(IReadOnlyList<FeatureOutlook> features)
    {
        var worst = 0;
        for (var i = 1; i < features.Count; i++)
        {
            worst = IsWorse(features[i], features[worst]) ? i : worst;
        }

        return worst;
    }

    private static bool IsWorse(FeatureOutlook one, FeatureOutlook other) =>
        (one.Level, one.Probability, Math.Abs(one.WorstMicrometres) / one.BudgetMicrometres)
            .CompareTo((other.Level, other.Probability, Math.Abs(other.WorstMicrometres) / other.BudgetMicrometres)) > 0;

    private Outlook Unknown(MachineState state, string because, DateTimeOffset now) => Base(state, now, Level.NotKnown) with
    {
        Reason = char.ToUpperInvariant(because[0]) + because[1..] + ".",
        Action = OutlookWords.WhenNotKnown(cell.FindPart(state.Job!.Part)?.Class ?? PartClass.Critical),
    };

    private Outlook Idle(MachineState state, DateTimeOffset now) => Base(state, now, Level.NoJob) with
    {
        Reason = "Nothing is loaded.",
        Action = "Load a part; the outlook starts with it.",
    };

    private Outlook Base(MachineState state, DateTimeOffset now, Level level) => new()
    {
        Machine = machine.Id,
        Serial = state.Job?.Serial ?? "",
        Part = state.Job?.Part ?? "",
        Operation = state.Job?.Operation ?? "",
        Level = level,
        Reason = "",
        Action = "",
        Seq = state.Seq + 1,
        IssuedAt = now,
        ValidUntil = now + Validity,
    };

    private static (MachineState State, IReadOnlyList<Decision> Decisions) Issue(MachineState state, ThermalModel model, Outlook outlook, DateTimeOffset now)
    {
        var last = state.Outlook;
        var changed = last is null || Differs(last, outlook);
        if (!changed && !NumbersMoved(last!, outlook) && now - last!.IssuedAt < RenewEvery)
        {
            return (WithTrace(state, model, last), []);
        }

        outlook = outlook with { Actions = outlook.Actions.Count > 0 ? outlook.Actions : [outlook.Action] };
        var next = WithTrace(state with { Outlook = outlook, Seq = outlook.Seq }, model, outlook);
        return (next, [new OutlookIssued(now, outlook, changed), .. Alerts.Between(last, outlook, now)]);
    }

    private static bool Differs(Outlook last, Outlook next) =>
        (last.Level, last.Serial, last.Part, last.Operation, last.Worst?.Feature) != (next.Level, next.Serial, next.Part, next.Operation, next.Worst?.Feature)
        || (next.Level == Level.NotKnown && last.Reason != next.Reason);

    private static bool NumbersMoved(Outlook last, Outlook next) =>
        last.Worst is { } a && next.Worst is { } b
        && (Math.Abs(a.EffectMicrometres - b.EffectMicrometres) > NewsMicrometres || Math.Abs(a.Probability - b.Probability) > 0.01);

    private static MachineState WithTrace(MachineState state, ThermalModel model, Outlook outlook)
    {
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
