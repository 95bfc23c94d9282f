namespace ClimateGuard.Thermal;

/// <summary>Probe the datum again: drift is gone whatever it was, mismatch stays.</summary>
internal static class Reprobe
{
    public static RankedAction Of(WhatIf what)
    {
        var state = what.Now();
        var minutes = what.Reprobe(state, what.Held(0), 0);
        var result = what.Start(state, minutes);
        return new()
        {
            Kind = ActionKind.Reprobe,
            Takes = TimeSpan.FromMinutes(minutes),
            Result = result,
            EndsWithReprobe = true,
        };
    }
}
