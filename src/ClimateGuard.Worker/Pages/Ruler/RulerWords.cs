using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Ruler;

/// <summary>What a budget ruler shows, for those who cannot see it.</summary>
public static class RulerWords
{
    /// <summary>The figure in sentences.</summary>
    public static string Of(FeatureOutlook outlook, Feature? feature, TimeSpan? cut)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        var budget = outlook.BudgetMicrometres;
        var text = $"Budget ruler, {FeatureWords.Name(feature, outlook.Feature)}: effect now "
            + $"{Numbers.SignedEffect(outlook.EffectMicrometres, budget)} µm, budget ±{Numbers.Micrometres(budget)} µm. "
            + $"Probing again removes {Numbers.SignedEffect(outlook.DriftMicrometres, budget)} µm; "
            + $"{Numbers.SignedEffect(outlook.MismatchMicrometres, budget)} µm stays. "
            + $"Uncertainty ±{Numbers.Micrometres(2 * outlook.UMicrometres)} µm (k = 2).";
        if (outlook.TrailMicrometres.Count < 2)
        {
            return text;
        }

        var end = Numbers.SignedEffect(outlook.TrailMicrometres[^1], budget);
        return text + $" At the end of the coming cut{(cut is { } length ? $", {CellTime.Length(length)} long" : "")}: {end} µm.";
    }
}
