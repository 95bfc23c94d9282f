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

    private static MachineState Probed(MachineState state, IReadOnlyList<Axis> axes) => state with
    {
        ProbedAt = [.. state.ProbedAt.Select((at, axis) => axes.Contains((Axis)axis) ? state.At : at)],
    };
}
