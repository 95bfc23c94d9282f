using System.Globalization;

namespace ClimateGuard.Worker.Pages.Words;

/// <summary>Times as they stand on the clock of the cell.</summary>
public sealed class CellTime
{
    private readonly TimeZoneInfo zone;

    private CellTime(TimeZoneInfo zone, string? label) => (this.zone, Label) = (zone, label);

    /// <summary>What to write beside a time when it is not the cell's own, or null.</summary>
    public string? Label { get; }

    /// <summary>The clock of a time zone; one that this computer does not know gives UTC, and the page says so.</summary>
    /// <param name="timeZone">An IANA id such as Europe/Vienna.</param>
    public static CellTime Of(string timeZone) => TimeZoneInfo.TryFindSystemTimeZoneById(timeZone, out var zone)
        ? new CellTime(zone, null)
        : new CellTime(TimeZoneInfo.Utc, "UTC");

    /// <summary>The same moment on the clock of the cell.</summary>
    public DateTimeOffset Local(DateTimeOffset time) => TimeZoneInfo.ConvertTime(time, zone);

    /// <summary>Hours and minutes, such as <c>10:35</c>.</summary>
    public string Clock(DateTimeOffset time) => Format(Local(time), "HH:mm");

    /// <summary>Day and time of the header, such as <c>Thu 10:35</c>.</summary>
    public string DayAndClock(DateTimeOffset time) => Format(Local(time), "ddd HH:mm") + (Label is null ? "" : " " + Label);

    /// <summary>Date and time, such as <c>9 Jul 2026 10:35</c>, for what may lie long ago.</summary>
    public string DateAndClock(DateTimeOffset time) => Format(Local(time), "d MMM yyyy HH:mm") + (Label is null ? "" : " " + Label);

    /// <summary>A moment seen from now: <c>10:35</c>, <c>tomorrow 06:10</c>, <c>Thu 21:20</c> within a week, else with the date.</summary>
    public string Near(DateTimeOffset time, DateTimeOffset now)
    {
        var local = Local(time);
        var days = (local.Date - Local(now).Date).Days;
        var text = days switch
        {
            0 => Format(local, "HH:mm"),
            1 => "tomorrow " + Format(local, "HH:mm"),
            -1 => "yesterday " + Format(local, "HH:mm"),
            > -7 and < 7 => Format(local, "ddd HH:mm"),
            _ => Format(local, "d MMM HH:mm"),
        };
        return Label is null ? text : text + " " + Label;
    }

    /// <summary>A length of time in two units at most: <c>40 s</c>, <c>25 min</c>, <c>2 h 15 min</c>, <c>3 d 4 h</c>.</summary>
    public static string Length(TimeSpan length)
    {
        var span = length.Duration();
        return span switch
        {
            { TotalSeconds: < 59.5 } => FormattableString.Invariant($"{Math.Round(span.TotalSeconds):0} s"),
            { TotalMinutes: < 59.5 } => FormattableString.Invariant($"{Math.Round(span.TotalMinutes):0} min"),
            { TotalHours: < 24 } => TwoUnits((int)Math.Round(span.TotalMinutes), 60, "h", "min"),
            _ => TwoUnits((int)Math.Round(span.TotalHours), 24, "d", "h"),
        };
    }

    private static string TwoUnits(int small, int perLarge, string large, string smallName) => small % perLarge == 0
        ? FormattableString.Invariant($"{small / perLarge} {large}")
        : FormattableString.Invariant($"{small / perLarge} {large} {small % perLarge} {smallName}");

    private static string Format(DateTimeOffset local, string format) => local.ToString(format, CultureInfo.InvariantCulture);
}
