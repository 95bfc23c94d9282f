using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>What the model said of a measurement just before it was taken: the two make a check of the model.</summary>
internal static class PredictedBefore
{
    /// <summary>The check, or null when the model knew nothing of the machine or the measurement says nothing it predicts.</summary>
    /// <param name="measured">The measurement.</param>
    /// <param name="before">The machine before it.</param>
    /// <param name="model">The model of the machine with its part.</param>
    public static ModelCheck? Of(Measured measured, MachineState before, ThermalModel model)
    {
        var thermal = before.Thermal!;
        var (serial, operation) = (before.Job?.Serial ?? "", before.Job?.Operation ?? "");
        ModelCheck Check(string kind, double predicted, double uPredicted, double value, double uValue) =>
            new(measured.Time, measured.Machine, serial, operation, kind, predicted, uPredicted, value, uValue);
        return measured switch
        {
            DatumReprobed reprobed when before.ProbedAt[(int)reprobed.Axis] is not null => Check(
                $"reprobe {reprobed.Axis.ToString().ToLowerInvariant()}", -model.DriftMicrometres(thermal, reprobed.Axis), model.DriftUncertainty(thermal, reprobed.Axis),
                reprobed.DeltaMicrometres, reprobed.UMicrometres),
            SpanProbed span when before.JobIsIn => Span(span, model, thermal) is var (predicted, u) ? Check("span", predicted, u, span.ErrorMicrometres, span.UMicrometres) : null,
            ContactMeasured contact when before.JobIsIn => Check(
                "contact", model.PartTemperature(thermal).Value, model.PartUncertainty(thermal).Value, contact.Value.Value, contact.Uncertainty.Value),
            _ => null,
        };
    }

    // span.errorUm = L·(αp·dTp − αs·dTs), the reading minus the length at 20 °C.
    private static (double Predicted, double U) Span(SpanProbed span, ThermalModel model, ThermalState thermal)
    {
        var metres = span.LengthMillimetres / 1000;
        var (part, scale) = (model.Part!.Material, model.Machine.Scale);
        var ofScale = scale.Compensated ? 0 : scale.AlphaMicrometresPerMetreKelvin;
        var (dTp, dTs) = (model.PartTemperature(thermal).Value - Celsius.Reference.Value, thermal[StateLayout.Scale] - Celsius.Reference.Value);
        var u = double.Hypot(
            double.Hypot(part.AlphaMicrometresPerMetreKelvin * model.PartUncertainty(thermal).Value, ofScale * thermal.StandardDeviation(StateLayout.Scale)),
            double.Hypot(part.UAlphaMicrometresPerMetreKelvin * dTp, (scale.Compensated ? 0 : scale.UAlphaMicrometresPerMetreKelvin) * dTs));
        return (metres * ((part.AlphaMicrometresPerMetreKelvin * dTp) - (ofScale * dTs)), metres * u);
    }
}
