namespace ClimateGuard.Thermal;

/// <summary>Blow room air over the part, then probe the datum again.</summary>
internal static class Fan
{
    public static RankedAction Of(WhatIf what)
    {
        var atHand = new ActionCondition(ActionConditionKind.FanAtHand, what.Question.FanAtHand);
        var horizon = what.Question.Hold.Horizon.TotalMinutes;
        var fewest = atHand.Met ? WhatIf.Fewest((int)horizon, t => what.IsSafe(After(what, t), t + WhatIf.ReprobeMinutes)) : null;
        if (fewest is not { } minutes)
        {
            return new()
            {
                Kind = ActionKind.Fan,
                Takes = what.Question.Hold.Horizon,
                Conditions = atHand.Met ? [atHand, new(ActionConditionKind.WithinHorizon, false, null, horizon)] : [atHand],
            };
        }

        return new()
        {
            Kind = ActionKind.Fan,
            Takes = TimeSpan.FromMinutes(minutes + WhatIf.ReprobeMinutes),
            Exposure = TimeSpan.FromMinutes(minutes),
            EndsWithReprobe = true,
            Conditions = [atHand],
            Result = what.Start(After(what, minutes), minutes + WhatIf.ReprobeMinutes),
        };
    }

    private static ThermalState After(WhatIf what, double minutes)
    {
        var still = what.Question.Hold.Now with { SpindleLoad = 0, Medium = Medium.Fan };
        var state = what.Now();
        what.Spend(state, still, 0, minutes);
        what.Reprobe(state, still with { Medium = Medium.Air }, minutes);
        return state;
    }
}
