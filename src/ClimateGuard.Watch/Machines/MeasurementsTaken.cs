using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>Takes what was measured at a machine into its thermal state.</summary>
internal static class MeasurementsTaken
{
    public static MachineState Into(MachineState state, ThermalModel model, MachineEvent happened)
    {
        if (state.Thermal is null || happened is not (DatumProbed or Measured))
        {
            return state;
        }

        var next = state with { Thermal = state.Thermal.Copy() };
        switch (happened)
        {
            case DatumProbed probed:
                model.ProbeDatum(next.Thermal, probed.Axes);
                return Probed(next, probed.Axes);
            case DatumReprobed reprobed:
                // Probing again teaches the model what the machine did, and sets the offset: drift starts again from zero.
                model.ObserveReprobe(next.Thermal, reprobed.Axis, reprobed.DeltaMicrometres, reprobed.UMicrometres);
                model.ProbeDatum(next.Thermal, [reprobed.Axis]);
                return Probed(next, [reprobed.Axis]);
            case SpanProbed span when model.Part is not null:
                model.ObserveSpan(next.Thermal, span.LengthMillimetres, span.ErrorMicrometres, span.UMicrometres);
                return next;
            case ContactMeasured contact when model.Part is not null:
                model.ObserveContact(next.Thermal, contact.Value, contact.Uncertainty);
                return next;
            default:
                return state;
        }
    }

    /// <summary>Judges the hold that stood when the measurement came.</summary>
    public static void Score(MachineState before, MachineState after, ThermalModel model, MachineEvent happened, List<Decision> decisions)
    {
        if (before.Timing.Shown != Level.Hold && before.Permits.Latch is null)
        {
            return;
        }

        if (before.Job is not { } job || happened is not Measured || before.Thermal is null || before.Outlook?.Worst is not { } held
            || model.Effects.FirstOrDefault(effect => effect.Feature.Id == held.Feature) is not { } feature)
        {
            return;
        }

        var predicted = feature.At(model, before.Thermal);
        var measured = MeasuredEffect(feature, model, before, after, happened);
        decisions.Add(new HoldScored(before.At, new HoldScore(
            before.Machine, job.Serial, job.Operation, held.Feature, predicted.EffectMicrometres, predicted.UMicrometres, measured,
            feature.BudgetMicrometres, HoldScore.Judge(predicted.EffectMicrometres, predicted.UMicrometres, measured, feature.BudgetMicrometres),
            happened switch { DatumReprobed => "reprobe", SpanProbed => "span", _ => "contact" })));
    }

    /// <summary>The effect that the measurement found, before a new probing took the drift away.</summary>
    private static double MeasuredEffect(FeatureModel feature, ThermalModel model, MachineState before, MachineState after, MachineEvent happened)
    {
        if (happened is not DatumReprobed reprobed)
        {
            return feature.At(model, after.Thermal!).EffectMicrometres;
        }

        var found = before.Thermal!.Copy();
        model.ObserveReprobe(found, reprobed.Axis, reprobed.DeltaMicrometres, reprobed.UMicrometres);
        return feature.At(model, found).EffectMicrometres;
    }

    private static MachineState Probed(MachineState state, IReadOnlyList<Axis> axes) => state with
    {
        ProbedAt = [.. state.ProbedAt.Select((at, axis) => axes.Contains((Axis)axis) ? state.At : at)],
    };
}
