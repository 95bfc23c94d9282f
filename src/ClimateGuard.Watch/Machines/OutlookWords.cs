using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>The reason and the actions of an outlook, in plain words.</summary>
internal sealed class OutlookWords(
    Cell cell, Machine machine, MachineState state, ThermalModel model, FeatureRisk risk, FeatureOutlook outlook)
{
    // A part this near to its scale is not what a machinist would call warm or cold.
    private const double NoticeableKelvins = 0.3;

    public static string WhenNotKnown(PartClass partClass) => partClass switch
    {
        PartClass.Critical => "Do not start: ask the process owner, or mend the signal.",
        PartClass.Reworkable => "Measure before you start, or mend the signal.",
        _ => "You may start; measure the part afterwards, and mend the signal.",
    };

    public string Reason()
    {
        var when = risk.WorstIndex == 0 ? "now" : $"{Words.Minutes(risk.WorstAfter)} into the cut";
        var size = $"{FeatureName.Of(risk.Feature)}: {Words.Micrometres(risk.Worst.EffectMicrometres)} {when}, "
            + $"budget {Words.Micrometres(risk.BudgetMicrometres)}";
        return $"{size}. {Cause()}";
    }

    public IReadOnlyList<string> Actions() => outlook.Level switch
    {
        Level.Ready or Level.Watch => ["Start the finish cut."],
        Level.MeasureFirst => [QuickMeasurement()],
        _ => DriftIsTheCause ? [Reprobe] : [Recovery(), QuickMeasurement()],
    };

    private const string Reprobe = "Probe the datum again (2 min), then start.";

    private bool DriftIsTheCause =>
        Math.Abs(risk.Worst.DriftMicrometres) > 0.5 * risk.BudgetMicrometres
        && Math.Abs(risk.Worst.MismatchMicrometres) < 0.5 * risk.BudgetMicrometres;

    private double PartOverScale => model.PartTemperature(state.Thermal!).Value - state.Thermal![StateLayout.Scale];

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

    private DateTimeOffset LastProbed() => state.ProbedAt.Max() ?? state.At;

    private bool CoolantPullsAway(out double coolant)
    {
        coolant = state.Climate.CoolantCelsius;
        return state.CoolantOn && !double.IsNaN(coolant) && Math.Abs(coolant - state.Thermal![StateLayout.Scale]) >= 0.5;
    }

    private string QuickMeasurement()
    {
        var shares = model.Effects.First(effect => effect.Feature.Id == risk.Feature.Id).UncertaintyAt(model, state.Thermal!);
        var drift = shares.Single(share => share.Label.StartsWith("drift", StringComparison.Ordinal)).Micrometres;
        var temperature = shares.Single(share => share.Label.StartsWith("temperature", StringComparison.Ordinal)).Micrometres;
        return DriftIsTheCause || drift > temperature
            ? Reprobe
            : "Take the part's temperature by contact, or probe a known length on it (3 min), and enter it.";
    }

    private string Recovery()
    {
        if (CoolantPullsAway(out var coolant))
        {
            return $"Do not start. Have the coolant of {machine.Id} brought back to {Words.Celsius(cell.Description.Reference.Value)} (now {Words.Celsius(coolant)}).";
        }

        var safe = 0.5 * risk.BudgetMicrometres / Math.Max(Math.Abs(risk.Worst.MismatchMicrometres), 1e-9);
        var inTimeConstants = Math.Max(0, -Math.Log(Math.Min(1, safe)));
        if (CanRinse())
        {
            var minutes = Math.Ceiling(inTimeConstants * model.Response!.TimeConstant(Medium.Flood).TotalMinutes);
            return $"Do not start. Flood the part {minutes:0} min with coolant, blow it dry, probe the datum again.";
        }

        var soak = TimeSpan.FromMinutes(Math.Ceiling(inTimeConstants * model.Response!.TimeConstant(Medium.Air).TotalMinutes));
        return $"Do not start. Let the part soak about {Words.Minutes(soak)}; a fan halves that.";
    }

    private bool CanRinse() => machine.CoolantMedium == CoolantMedium.Flood
        && Math.Abs(state.Climate.CoolantCelsius - state.Thermal![StateLayout.Scale]) < 0.5;
}
