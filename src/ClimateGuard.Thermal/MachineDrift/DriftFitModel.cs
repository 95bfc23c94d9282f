namespace ClimateGuard.Thermal;

/// <summary>
/// The explanations of a drift test that are compared. The first five know no temperature: they are what a fit must beat.
/// </summary>
public enum DriftFitModel
{
    /// <summary>The displacement stays where it is.</summary>
    Constant,

    /// <summary>It moves steadily with time.</summary>
    Trend,

    /// <summary>It moves with time at a changing pace (a parabola).</summary>
    Curve,

    /// <summary>It settles from where it was when the record began.</summary>
    OneDecay,

    /// <summary>It settles at two speeds.</summary>
    TwoDecays,

    /// <summary>It follows the temperature with one mode.</summary>
    OneMode,

    /// <summary>It follows the temperature with a fast and a slow mode of either sign.</summary>
    TwoModes,
}
