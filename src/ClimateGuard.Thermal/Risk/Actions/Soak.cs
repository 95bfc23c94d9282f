namespace ClimateGuard.Thermal;

/// <summary>Wait, held as it is; when that does not make it safe, wait and probe the datum again at the start.</summary>
internal static class Soak
{
    public static RankedAction Of(WhatIf what)
    {
        var hold = what.Question.Hold with { KeepSpindleTurning = false };
        var start = Waiting.Released(what, hold);
        if (start is not null)
        {
            return Waiting.Of(what, ActionKind.Soak, hold, start);
        }

        // When no wait is needed beside it, that is the action of probing again, not a soak.
        var reprobed = hold with { ReprobeAtStart = true };
        if (!hold.ReprobeAtStart && Waiting.Released(what, reprobed) is SafeAt later)
        {
            return Waiting.Of(what, ActionKind.Soak, reprobed, later);
        }

        EarliestSafeTime.TryFind(what.Model, what.Question.State, hold, what.Question.Policies, out start);
        return Waiting.Of(what, ActionKind.Soak, hold, start);
    }
}
