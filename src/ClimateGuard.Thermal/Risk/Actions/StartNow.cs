namespace ClimateGuard.Thermal;

/// <summary>Start the cut as it stands.</summary>
internal static class StartNow
{
    public static RankedAction Of(WhatIf what) => new()
    {
        Kind = ActionKind.StartNow,
        Takes = TimeSpan.Zero,
        Result = what.Start(what.Now(), 0),
    };
}
