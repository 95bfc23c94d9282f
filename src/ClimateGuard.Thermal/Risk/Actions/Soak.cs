namespace ClimateGuard.Thermal;

/// <summary>Wait, held as it is; when that does not make it safe, wait and probe the datum again at the start.</summary>
internal static class Soak
{
    public static RankedAction Of(WhatIf what)
    {
        var hold = what.Question.Hold with { KeepSpindleTurning = false };
        var found = Waiting.Of(what, ActionKind.Soak, hold);
        return found.Possible || hold.ReprobeAtStart ? found : Waiting.Of(what, ActionKind.Soak, hold with { ReprobeAtStart = true });
    }
}
