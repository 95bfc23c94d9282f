using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>The reason and the actions of an outlook, in plain words.</summary>
internal sealed class OutlookWords(
    Cell cell, Machine machine, MachineState state, ThermalModel model, FeatureRisk risk, FeatureOutlook outlook)
{
    // A part this near to its scale is not what a machinist would call warm or cold.
    private const double NoticeableKelvins = 0.3;

    private bool DriftIsTheCause =>
        Math.Abs(risk.Worst.DriftMicrometres) > 0.5 * risk.BudgetMicrometres
        && Math.Abs(risk.Worst.MismatchMicrometres) < 0.5 * risk.BudgetMicrometres;

    private double PartOverScale => model.PartTemperature(state.Thermal!).Value - state.Thermal![StateLayout.Scale];

    public static string WhenNotKnown(PartClass partClass) => partClass switch
    {
        PartClass.Critical => "Do not start: ask the process owner, or mend the signal.",
        PartClass.Reworkable => "Measure before you start, or mend the signal.",
        _ => "You may start; measure the part afterwards, and mend the signal.",
    };

    /// <summary>Whether drift, rather than temperature, is what matters or is known least.</summary>
    public static bool DriftDecides(ThermalModel model, MachineState state, FeatureRisk risk)
    {
        var shares = model.Effects.First(effect => effect.Feature.Id == risk.Feature.Id).UncertaintyAt(model, state.Thermal!);
        var drift = shares.Where(share => share.Label.StartsWith("drift", StringComparison.Ordinal)).Sum(share => share.Micrometres);
        var temperature = shares.Where(share => share.Label.StartsWith("temperature", StringComparison.Ordinal)).Sum(share => share.Micrometres);
        return drift > temperature || Math.Abs(risk.Worst.DriftMicrometres) > Math.Abs(risk.Worst.MismatchMicrometres);
    }

    public string Reason()
    {
        var when = risk.WorstIndex == 0 ? "now" : $"{Words.Minutes(risk.WorstAfter)} into the cut";
        var size = $"{FeatureName.Of(risk.Feature)}: {Words.Micrometres(risk.Worst.EffectMicrometres)} {when}, "
            + $"budget {Words.Micrometres(risk.BudgetMicrometres)}";
        return $"{size}. {Cause()}";
    }

    public string Cause()
    {
        if (DriftIsTheCause)
        {
            return $"The machine has moved since the datum was probed {Words.Minutes(state.At - LastProbed())} ago.";
        }

        if (CoolantPullsAway(out var coolant))
        {
            return $"Coolant is {Words.Celsius(coolant)} and the part follows it; air is {Words.Celsius(state.Climate.AirCelsius)}.";
        }

        var part = Words.Celsius(model.PartTemperature(state.Thermal!).Value);
        var scale = Words.Celsius(state.Thermal![StateLayout.Scale]);
        if (Math.Abs(PartOverScale) >= NoticeableKelvins)
        {
            return $"The part is {part}, the scale {scale}: the part is {(PartOverScale > 0 ? "warm" : "cold")}.";
        }

        return outlook.Level is Level.Ready or Level.Watch
            ? $"The part is {part}, the scale {scale}."
            : $"The part is {part}, known to ± {FormattableString.Invariant($"{2 * model.PartUncertainty(state.Thermal!).Value:0.0} K")}.";
    }

    public IReadOnlyList<string> Actions()
    {
        if (state.Cut is { } cut)
        {
            return outlook.Level is Level.Ready or Level.Watch
                ? [$"The cut runs since {Words.Minutes(state.At - cut.Since)}; nothing to do."]
                : ["Let the running cut finish; do not start the next group."];
        }

        if (state.Timing.Shown is Level.Ready or Level.Watch)
        {
            return ["Start the finish cut."];
        }

        if (outlook.Level is Level.Ready or Level.Watch)
        {
            return [state.Permits.Latch is null ? "Wait a moment: the hold is about to end." : "Ask again: the effect is inside its budget now."];
        }

        var helpful = state.Prospect?.Actions ?? [];
        return CoolantPullsAway(out var warm)
            ? [BringBack(warm), .. helpful]
            : helpful.Count > 0 ? [.. helpful.Select(HoldFirst)] : [NothingHelps()];
    }

    private DateTimeOffset LastProbed() => state.ProbedAt.Max() ?? state.At;

    private bool CoolantPullsAway(out double coolant)
    {
        coolant = state.Climate.CoolantCelsius;
        return state.CoolantOn && !double.IsNaN(coolant) && Math.Abs(coolant - state.Thermal![StateLayout.Scale]) >= 0.5;
    }

    private string BringBack(double coolant) =>
        $"Do not start. Have the coolant of {machine.Id} brought back to {Words.Celsius(cell.Description.Reference.Value)} (now {Words.Celsius(coolant)}).";

    private string HoldFirst(string action, int place) => place == 0 && state.Timing.Shown == Level.Hold ? $"Do not start. {action}" : action;

    private string NothingHelps() => state.Timing.Shown == Level.Hold
        ? "Do not start. Nothing at hand makes this cut safe within the forecast: ask the process owner."
        : "Ask the process owner: no quick measurement settles this cut.";
}
