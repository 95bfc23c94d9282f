namespace ClimateGuard.Thermal;

/// <summary>Wait, held as it is; when that does not make it safe, wait and probe the datum again at the start.</summary>
internal static class Soak
{
    public static RankedAction Of(WhatIf what)
    {
        var hold = what.Question.Hold with { KeepSpindleTurning = false };
        var found = Waiting.Of(what, ActionKind.Soak, hold);
        if (found.Possible || hold.ReprobeAtStart)
        {
            return found;
        }

        // When no wait is needed beside it, that is the action of probing again, not a soak.
        var reprobed = Waiting.Of(what, ActionKind.Soak, hold with { ReprobeAtStart = true });
        return reprobed.Exposure > TimeSpan.Zero ? reprobed : found;
    }
}
