using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Enclosure;

namespace ClimateGuard.Edges.Files;

/// <summary>Times of inspection files: RFC 3339, or the local clock of a place in a stated order.</summary>
internal static class LocalTimes
{
    private static readonly string[] Clocks = ["HH:mm:ss.FFFFFFF", "HH:mm:ss", "HH:mm", "H:mm:ss", "H:mm"];

    /// <summary>Reads a time.</summary>
    /// <param name="text">As it stands in the file, not empty.</param>
    /// <param name="form">How times are written.</param>
    /// <param name="problem">What is wrong and what is allowed, when the result is null.</param>
    public static DateTimeOffset? Read(string text, TimeForm form, out string problem)
    {
        problem = "";
        if (form.Order is not { } order)
        {
            if (Rfc3339.TryParse(Encoding.UTF8.GetBytes(text), out var exact) && Rfc3339.IsPlausible(exact.ToUnixTimeMilliseconds()))
            {
                return exact.ToUniversalTime();
            }

            problem = $"time is \"{Printable.Clean(text, 40)}\"; a time with its offset such as 2026-01-10T08:00:00Z, or blank, is allowed";
            return null;
        }

        if (!DateTime.TryParseExact(text.Replace('T', ' '), Formats(order), CultureInfo.InvariantCulture, DateTimeStyles.AllowWhiteSpaces, out var clock)
            || clock.Year is < 2000 or >= 2100)
        {
            problem = $"time is \"{Printable.Clean(text, 40)}\"; {Shown(order)} with a year of four digits is allowed by the mapping of the device";
            return null;
        }

        return At(clock, form, text, out problem);
    }

    /// <summary>A clock time at its place.</summary>
    internal static DateTimeOffset? At(DateTime clock, TimeForm form, string text, out string problem)
    {
        problem = "";
        if (form.Zone is not { } zone)
        {
            problem = $"time \"{Printable.Clean(text, 40)}\" has no offset; say the time zone in the mapping of the device";
            return null;
        }

        if (zone.IsInvalidTime(clock))
        {
            problem = $"time \"{Printable.Clean(text, 40)}\" does not exist in {zone.Id}: the clock is set forward over it";
            return null;
        }

        if (form.RepeatedHour is null && zone.IsAmbiguousTime(clock))
        {
            problem = $"time \"{Printable.Clean(text, 40)}\" occurs twice in {zone.Id}, as the clock is set back; say repeatedHour: first or second in the mapping of the device";
            return null;
        }

        return LocalInstant.Of(clock, zone, first: form.RepeatedHour == "first");
    }

    private static string[] Formats(string order) =>
        [.. from date in Dates(order) from clock in Clocks select $"{date} {clock}"];

    private static List<string> Dates(string order)
    {
        var dates = new List<string>();
        foreach (var between in (ReadOnlySpan<char>)['.', '/', '-'])
        {
            // The colon and slash of a format are those of a culture unless they are quoted.
            var mark = $"'{between}'";
            foreach (var (day, month) in ((string, string)[])[("dd", "MM"), ("d", "M")])
            {
                dates.Add(order switch
                {
                    "dmy" => $"{day}{mark}{month}{mark}yyyy",
                    "mdy" => $"{month}{mark}{day}{mark}yyyy",
                    _ => $"yyyy{mark}{month}{mark}{day}",
                });
            }
        }

        return dates;
    }

    private static string Shown(string order) => order switch
    {
        "dmy" => "day.month.year hour:minute",
        "mdy" => "month/day/year hour:minute",
        _ => "year-month-day hour:minute",
    };
}
