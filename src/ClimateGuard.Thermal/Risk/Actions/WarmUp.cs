namespace ClimateGuard.Thermal;

/// <summary>Warm the spindle up, then probe the datum again: what the spindle still grows in the cut is then small.</summary>
internal static class WarmUp
{
    private const int MostMinutes = 90;

    public static RankedAction Of(WhatIf what)
    {
        var known = new ActionCondition(ActionConditionKind.SpindleModeKnown, what.Model.Machine.Spindle.Count > 0);
        var fewest = known.Met ? WhatIf.Fewest(MostMinutes, t => what.IsSafe(After(what, t), t + WhatIf.ReprobeMinutes)) : null;
        if (fewest is not { } minutes)
        {
            return new()
            {
                Kind = ActionKind.WarmUp,
                Takes = TimeSpan.FromMinutes(MostMinutes),
                Conditions = known.Met ? [known, new(ActionConditionKind.WithinHorizon, false, null, MostMinutes)] : [known],
            };
        }

        return new()
        {
            Kind = ActionKind.WarmUp,
            Takes = TimeSpan.FromMinutes(minutes + WhatIf.ReprobeMinutes),
            Exposure = TimeSpan.FromMinutes(minutes),
            EndsWithReprobe = true,
            Conditions = [known],
            Result = what.Start(After(what, minutes), minutes + WhatIf.ReprobeMinutes),
        };
    }

    private static ThermalState After(WhatIf what, int minutes)
    {
        var state = what.Now();
        for (var minute = 0; minute < minutes; minute++)
        {
            what.Spend(state, what.Held(minute) with { SpindleLoad = what.Question.WarmUpLoad }, minute, 1);
        }

        what.Reprobe(state, what.Held(minutes) with { SpindleLoad = what.Question.WarmUpLoad }, minutes);
        return state;
    }
}
