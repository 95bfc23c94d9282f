namespace ClimateGuard.Edges.Sqlite;

/// <summary>How long each level of the history is kept: the section <c>Storage:Retention</c>.</summary>
/// <remarks>Whole months go, from the day their last reading is too old. What is pinned stays.</remarks>
public sealed record HistoryRetention
{
    /// <summary>Days of raw readings and of what was set aside, in [1, 36 500].</summary>
    public int RawDays { get; init; } = 400;

    /// <summary>Days of the aggregates of a minute, in [1, 36 500], not fewer than of raw readings.</summary>
    public int MinuteDays { get; init; } = 1_100;

    /// <summary>Days of the aggregates of a quarter of an hour, in [1, 36 500], not fewer than of minutes; null for ever.</summary>
    public int? QuarterHourDays { get; init; }

    /// <summary>Everything wrong, each as one sentence that says how to mend it.</summary>
    public IReadOnlyList<string> Problems()
    {
        var found = new List<string>();
        foreach (var (name, days) in (ReadOnlySpan<(string, int?)>)[("RawDays", RawDays), ("MinuteDays", MinuteDays), ("QuarterHourDays", QuarterHourDays)])
        {
            if (days is < 1 or > 36_500)
            {
                found.Add($"Storage:Retention:{name} {days}: a number of days in [1, 36500] is allowed.");
            }
        }

        if (MinuteDays < RawDays || QuarterHourDays < MinuteDays)
        {
            found.Add("Storage:Retention: RawDays, MinuteDays and QuarterHourDays must not fall: charts come from the coarser level when the finer is gone.");
        }

        return found;
    }

    /// <summary>The days of a level, or null for ever.</summary>
    internal int? DaysOf(HistoryLevel level) => level switch
    {
        HistoryLevel.Raw => RawDays,
        HistoryLevel.Minute => MinuteDays,
        _ => QuarterHourDays,
    };
}

/// <summary>How fine the history is.</summary>
public enum HistoryLevel
{
    /// <summary>Each reading.</summary>
    Raw,

    /// <summary>Aggregates of a minute.</summary>
    Minute,

    /// <summary>Aggregates of a quarter of an hour.</summary>
    QuarterHour,
}

/// <summary>What belongs to a level.</summary>
internal static class HistoryLevels
{
    /// <summary>The two levels of aggregates.</summary>
    public static ReadOnlySpan<HistoryLevel> Aggregates => [HistoryLevel.Minute, HistoryLevel.QuarterHour];

    /// <summary>The period of a level, in ms.</summary>
    public static long Period(this HistoryLevel level) => level switch
    {
        HistoryLevel.Raw => 1,
        HistoryLevel.Minute => 60_000,
        _ => 900_000,
    };
}
