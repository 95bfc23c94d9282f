namespace ClimateGuard.Watch;

/// <summary>The published figures for the alarms of one operating position.</summary>
/// <remarks>
/// ANSI/ISA-18.2 and IEC 62682 (table of performance metrics), as seen in training material that quotes them; the paper copies were not seen.
/// </remarks>
public static class AlarmLimits
{
    /// <summary>The source of all but the last two.</summary>
    public const string Source = "ANSI/ISA-18.2, IEC 62682, table of alarm performance metrics";

    /// <summary>The source of the end of a flood.</summary>
    public const string FloodEndSource = "ANSI/ISA-18.2, IEC 62682 (end of a flood: from memory)";

    /// <summary>The source of the figure per shift.</summary>
    public const string OwnSource = "our own target for a machinist, no published source";

    /// <summary>How long must be looked at before a figure may be judged.</summary>
    public static TimeSpan LeastEvidence { get; } = TimeSpan.FromDays(30);

    /// <summary>Alarms per day: very likely acceptable, manageable.</summary>
    public static (double Acceptable, double Manageable) PerDay => (150, 300);

    /// <summary>Alarms per hour: very likely acceptable, manageable.</summary>
    public static (double Acceptable, double Manageable) PerHour => (6, 12);

    /// <summary>Alarms per 10 minutes: very likely acceptable, manageable.</summary>
    public static (double Acceptable, double Manageable) PerTenMinutes => (1, 2);

    /// <summary>A flood begins with more than so many alarms in 10 minutes; no period of 10 minutes should hold more.</summary>
    public const int FloodBeginsAbove = 10;

    /// <summary>A flood ends with fewer than so many alarms in 10 minutes.</summary>
    public const int FloodEndsBelow = 5;

    /// <summary>Share of the time in flood, and share of the 10-minute periods with more than 10 alarms.</summary>
    public const double FloodShare = 0.01;

    /// <summary>Share of the ten most frequent causes: 1 % is the aim, 5 % the most.</summary>
    public static (double Acceptable, double Manageable) TopTenShare => (0.01, 0.05);

    /// <summary>An alarm is stale when it stands for longer.</summary>
    public static TimeSpan StaleAfter { get; } = TimeSpan.FromHours(24);

    /// <summary>Fewer than so many stale alarms on any day.</summary>
    public const int StaleBelow = 5;

    /// <summary>An alarm chatters from so many activations within a minute.</summary>
    public const int ChatteringFrom = 3;

    /// <summary>Shares of low, medium and high priority that are aimed at.</summary>
    public static (double Low, double Medium, double High) Priorities => (0.80, 0.15, 0.05);

    /// <summary>Alarms per shift.</summary>
    public static (double Acceptable, double Manageable) PerShift => (2, 2);
}
