using System.Globalization;

namespace ClimateGuard.Plant;

/// <summary>The words of the shop's calendar.</summary>
internal static class ShiftDays
{
    public static IReadOnlyList<string> Words { get; } = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

    public static DayOfWeek Day(string word) => (DayOfWeek)((Words.ToList().IndexOf(word) + 1) % 7);

    public static bool TryTime(string text, out TimeOnly time) =>
        TimeOnly.TryParseExact(text, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out time);
}
