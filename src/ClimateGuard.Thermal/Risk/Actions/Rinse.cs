namespace ClimateGuard.Thermal;

/// <summary>Rinse the part with coolant, blow it dry, probe the datum again: minutes where air takes hours.</summary>
internal static class Rinse
{
    /// <summary>Coolant farther from the scale than this would only move the mismatch (common practice, no source).</summary>
    public const double CoolantWithinKelvins = 0.5;

    private const int MostMinutes = 60;
    private const double BlowDryMinutes = 1;

    public static RankedAction Of(WhatIf what)
    {
        var apart = what.Question.Coolant?.Value - what.Question.State[StateLayout.Scale];
        var near = new ActionCondition(ActionConditionKind.CoolantNearScale, Math.Abs(apart ?? double.MaxValue) <= CoolantWithinKelvins, apart, CoolantWithinKelvins);
        var fewest = near.Met ? WhatIf.Fewest(MostMinutes, t => what.IsSafe(After(what, t), Total(t))) : null;
        if (fewest is not { } minutes)
        {
            return new()
            {
                Kind = ActionKind.Rinse,
                Takes = TimeSpan.FromMinutes(Total(MostMinutes)),
                Conditions = near.Met ? [near, new(ActionConditionKind.WithinHorizon, false, null, MostMinutes)] : [near],
            };
        }

        return new()
        {
            Kind = ActionKind.Rinse,
            Takes = TimeSpan.FromMinutes(Total(minutes)),
            Exposure = TimeSpan.FromMinutes(minutes),
            EndsWithReprobe = true,
            Conditions = [near],
            Result = what.Start(After(what, minutes), Total(minutes)),
        };
    }

    private static double Total(double minutes) => minutes + BlowDryMinutes + WhatIf.ReprobeMinutes;

    private static ThermalState After(WhatIf what, double minutes)
    {
        var still = what.Question.Hold.Now with { SpindleLoad = 0, CoolantCelsius = what.Question.Coolant!.Value.Value };
        var state = what.Now();
        what.Spend(state, still with { Medium = Medium.Flood }, 0, minutes);
        what.Spend(state, still with { Medium = Medium.Fan }, minutes, BlowDryMinutes);
        what.Reprobe(state, still with { Medium = Medium.Air }, minutes + BlowDryMinutes);
        return state;
    }
}
