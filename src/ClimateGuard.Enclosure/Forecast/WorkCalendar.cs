using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>Which days are alike: those on which the same shifts begin. Immutable but for a remembered offset; not safe across threads.</summary>
public sealed class WorkCalendar
{
    private const long HourMilliseconds = 3_600_000;
    private readonly TimeZoneInfo zone;
    private readonly int[] kindOf = new int[7];
    private long offsetHour = long.MinValue;
    private long offsetMilliseconds;

    /// <summary>The calendar of a cell.</summary>
    /// <param name="shifts">Its shifts; none: Monday to Friday are alike, Saturday and Sunday each for itself.</param>
    /// <param name="timeZone">Where it stands.</param>
    public WorkCalendar(IReadOnlyList<Shift> shifts, TimeZoneInfo timeZone)
    {
        ArgumentNullException.ThrowIfNull(shifts);
        ArgumentNullException.ThrowIfNull(timeZone);
        zone = timeZone;
        var patterns = new List<string>();
        foreach (var day in Enum.GetValues<DayOfWeek>())
        {
            var pattern = shifts.Count == 0 ? Usual(day) : string.Join(';', shifts.Where(s => s.Days.Contains(day)).Select(s => s.Name));
            if (!patterns.Contains(pattern)) patterns.Add(pattern);
            kindOf[(int)day] = patterns.IndexOf(pattern);
        }

        Kinds = patterns.Count;
    }

    /// <summary>How many kinds of days there are.</summary>
    public int Kinds { get; }

    /// <summary>The kind of the local day, its number, and the milliseconds since its local midnight.</summary>
    public (int Kind, long Day, long Milliseconds) At(long epochMilliseconds)
    {
        var hour = Math.DivRem(epochMilliseconds, HourMilliseconds / 4).Quotient;
        if (hour != offsetHour)
        {
            offsetHour = hour;
            offsetMilliseconds = (long)zone.GetUtcOffset(DateTimeOffset.FromUnixTimeMilliseconds(epochMilliseconds)).TotalMilliseconds;
        }

        var local = epochMilliseconds + offsetMilliseconds;
        var day = Math.DivRem(local, 24 * HourMilliseconds, out var within);

        // 1 January 1970 was a Thursday.
        return (kindOf[(int)((day + 4) % 7)], day, within);
    }

    private static string Usual(DayOfWeek day) => day is DayOfWeek.Saturday or DayOfWeek.Sunday ? day.ToString() : "";
}
