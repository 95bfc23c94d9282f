using System.Globalization;

namespace ClimateGuard.Watch;

/// <summary>What a control's screen shows: plain characters only, at most 60.</summary>
internal static class ControlText
{
    public static string CodeOf(FeatureOutlook worst) => worst.Level switch
    {
        Level.Ready => ReasonCodes.WithinBudget,
        Level.Watch => ReasonCodes.SmallMargin,
        _ when Math.Abs(worst.WorstMicrometres) <= worst.BudgetMicrometres && worst.Level == Level.MeasureFirst => ReasonCodes.Uncertain,
        _ => Math.Abs(worst.DriftMicrometres) > Math.Abs(worst.MismatchMicrometres) ? ReasonCodes.Drift : ReasonCodes.Mismatch,
    };

    public static string Numbers(FeatureOutlook worst) => string.Create(
        CultureInfo.InvariantCulture, $"{worst.Feature} {worst.WorstMicrometres:0.#} of {worst.BudgetMicrometres:0.#} um");

    public static string Measure(FeatureOutlook worst) => Math.Abs(worst.DriftMicrometres) > Math.Abs(worst.MismatchMicrometres)
        ? $"Probe datum first: {Numbers(worst)}"
        : $"Measure part first: {Numbers(worst)}";

    public static string Of(FeatureOutlook worst, MachineState state) => state.CoolantOn && !double.IsNaN(state.Climate.CoolantCelsius)
        ? string.Create(CultureInfo.InvariantCulture, $"HOLD {Numbers(worst)}; coolant {state.Climate.CoolantCelsius:0.0} C")
        : string.Create(CultureInfo.InvariantCulture, $"HOLD {Numbers(worst)}; air {state.Climate.AirCelsius:0.0} C");
}
