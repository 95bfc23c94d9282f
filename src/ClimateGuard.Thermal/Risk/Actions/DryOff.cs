namespace ClimateGuard.Thermal;

/// <summary>Blow a wet part dry: a wet part moves towards the wet-bulb temperature, away from the room.</summary>
internal static class DryOff
{
    private const double Minutes = 2;

    public static RankedAction Of(WhatIf what)
    {
        var held = what.Held(0);
        var wet = new ActionCondition(ActionConditionKind.PartIsWet, held.Medium == Medium.Wet);
        if (!wet.Met)
        {
            return new() { Kind = ActionKind.DryOff, Takes = TimeSpan.FromMinutes(Minutes), Conditions = [wet] };
        }

        var state = what.Now();
        what.Spend(state, held with { Medium = Medium.Fan }, 0, Minutes);
        return new()
        {
            Kind = ActionKind.DryOff,
            Takes = TimeSpan.FromMinutes(Minutes),
            Exposure = TimeSpan.FromMinutes(Minutes),
            Conditions = [wet],
            Result = what.Dry().Start(state, Minutes),
        };
    }
}
