using System.Globalization;

namespace ClimateGuard.Plant;

/// <summary>The words of the shop's calendar.</summary>
internal static class ShiftDays
{
    public static IReadOnlyList<string> Words { get; } = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

    public static DayOfWeek Day(string word) => (DayOfWeek)((Words.ToList().IndexOf(word) + 1) % 7);

    public static bool TryTime(string text, out TimeOnly time) =>
        TimeOnly.TryParseExact(text, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out time);

    /// <summary>A weekday and a time of day, such as Sat 14:30.</summary>
    public static bool TryWeekTime(string text, out WeekTime time)
    {
        time = default;
        if (text.Split(' ') is not [var day, var clock] || !Words.Contains(day, StringComparer.Ordinal) || !TryTime(clock, out var at)) return false;
        time = new WeekTime(Day(day), at);
        return true;
    }
}
