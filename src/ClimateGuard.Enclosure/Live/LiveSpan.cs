namespace ClimateGuard.Enclosure;

/// <summary>Over what time a cause is judged while the cell runs.</summary>
/// <remarks>
/// A cause that shows within minutes is looked for in the last hour, any other in the last day, as its limits were found for days. Whether its
/// signs still stand is judged over the last minutes alone: as many as it takes to see them, and as <see cref="FaultCause.OffAfter"/> wants them
/// gone, so that a sign of this morning does not hold a finding open all day (common practice, no source).
/// </remarks>
public static class LiveSpan
{
    /// <summary>The time in which quick causes are looked for, in minutes.</summary>
    public const int QuickMinutes = 60;

    /// <summary>The time in which all others are looked for, in minutes.</summary>
    public const int DayMinutes = 1440;

    private const int LeastQuickMinutes = 15;
    private const int LeastMinutes = 180;
    private static readonly TimeSpan QuickOnAfter = TimeSpan.FromMinutes(10);

    /// <summary>Whether it shows within minutes.</summary>
    public static bool IsQuick(FaultCause cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return cause.OnAfter <= QuickOnAfter;
    }

    /// <summary>Whether one day is only a hint of it.</summary>
    public static bool NeedsDays(FaultCause cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return cause.OnAfter >= TimeSpan.FromDays(1);
    }

    /// <summary>Over how many minutes it is judged whether its signs still stand.</summary>
    public static int StandsMinutes(FaultCause cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        if (IsQuick(cause)) return (int)Math.Clamp(cause.OffAfter.TotalMinutes, LeastQuickMinutes, QuickMinutes);
        var wanted = Math.Max(Math.Max(cause.OnAfter.TotalMinutes, cause.OffAfter.TotalMinutes), cause.LeastSpan.TotalMinutes);
        return (int)Math.Clamp(wanted, LeastMinutes, DayMinutes);
    }
}
