using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Pages.Words;

/// <summary>A feature and its numbers in the language of the shop.</summary>
public static class FeatureWords
{
    /// <summary>What the feature is, such as <c>24 holes on ⌀900</c>; the id where the plant file no longer knows it.</summary>
    public static string Name(Feature? feature, string id) => feature is null ? Words(id) : FeatureName.Of(feature);

    /// <summary>The feature with the worst effect of the coming cut, such as <c>24 holes on ⌀900: 31 µm of 18 µm budget</c>.</summary>
    public static string Headline(Feature? feature, FeatureOutlook outlook)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        var effect = Effect(feature, outlook.WorstMicrometres, outlook.BudgetMicrometres);
        return $"{Name(feature, outlook.Feature)}: {effect} µm of {Numbers.Micrometres(outlook.BudgetMicrometres)} µm budget";
    }

    /// <summary>How the effect gets there, such as <c>12 µm now, 31 µm after 20 min of the cut</c>; null when it hardly moves.</summary>
    public static string? Course(Feature? feature, FeatureOutlook outlook)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        var move = Math.Abs(outlook.WorstMicrometres - outlook.EffectMicrometres);
        if (!(move > 0.05 * outlook.BudgetMicrometres))
        {
            return null;
        }

        var now = Effect(feature, outlook.EffectMicrometres, outlook.BudgetMicrometres);
        var worst = Effect(feature, outlook.WorstMicrometres, outlook.BudgetMicrometres);
        return $"{now} µm now, {worst} µm after {CellTime.Length(outlook.WorstAfter)} of the cut";
    }

    /// <summary>What the sign of an effect means for the part at 20 °C, or null where an effect has no sign.</summary>
    public static string? Direction(Feature? feature, double micrometres) => feature switch
    {
        SizeFeature => micrometres < 0 ? "smaller at 20 °C" : "larger at 20 °C",
        DepthFeature => micrometres < 0 ? "shallower at 20 °C" : "deeper at 20 °C",
        DistanceFeature => micrometres < 0 ? "shorter at 20 °C" : "longer at 20 °C",
        _ => null,
    };

    /// <summary>An effect, with a sign where the feature has one; position and coaxiality are diameters and have none.</summary>
    public static string Effect(Feature? feature, double micrometres, double budgetMicrometres) =>
        feature is PositionFeature or CoaxialityFeature
            ? Numbers.Effect(micrometres, budgetMicrometres)
            : Numbers.SignedEffect(micrometres, budgetMicrometres);

    private static string Words(string id) => id.Replace('-', ' ').Replace('_', ' ');
}
