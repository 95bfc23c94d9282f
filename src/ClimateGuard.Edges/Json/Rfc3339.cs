using System.Globalization;

namespace ClimateGuard.Edges.Json;

/// <summary>Times on the wire: RFC 3339 with an offset; written in UTC with milliseconds.</summary>
/// <remarks>
/// The parser of the framework also takes a date alone, and reads a time without offset as local time: a gateway in another
/// time zone would be hours off without a word. Here a missing offset is refused.
/// </remarks>
public static class Rfc3339
{
    /// <summary>2000-01-01, the earliest time that is taken; an earlier one is a clock that was never set.</summary>
    public const long EarliestEpochMilliseconds = 946_684_800_000;

    /// <summary>2100-01-01, the time from which on nothing is taken.</summary>
    public const long LatestEpochMilliseconds = 4_102_444_800_000;

    /// <summary>What is allowed, for messages.</summary>
    public const string Allowed =
        "a time such as \"2026-01-10T08:00:00Z\" (RFC 3339 with offset) or 1768032000000 (milliseconds since 1970) between 2000 and 2100";

    /// <summary>The time in UTC with milliseconds, such as <c>2026-01-10T08:00:00.000Z</c>.</summary>
    public static string Text(DateTimeOffset time) =>
        time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    /// <summary>Whether these milliseconds lie in [2000, 2100).</summary>
    public static bool IsPlausible(long epochMilliseconds) =>
        epochMilliseconds is >= EarliestEpochMilliseconds and < LatestEpochMilliseconds;

    /// <summary>Reads a time from UTF-8 text without allocating.</summary>
    /// <param name="text">Such as <c>2026-01-10T09:00:00.25+01:00</c>.</param>
    /// <param name="time">The time, with the offset as written.</param>
    /// <returns>Whether it is RFC 3339 with an offset.</returns>
    public static bool TryParse(ReadOnlySpan<byte> text, out DateTimeOffset time)
    {
        time = default;
        if (text.Length is < 20 or > 40 || text[4] != '-' || text[7] != '-' || text[10] is not ((byte)'T' or (byte)'t' or (byte)' ')
            || text[13] != ':' || text[16] != ':'
            || !Digits(text[..4], out var year) || !Digits(text[5..7], out var month) || !Digits(text[8..10], out var day)
            || !Digits(text[11..13], out var hour) || !Digits(text[14..16], out var minute) || !Digits(text[17..19], out var second))
        {
            return false;
        }

        var rest = text[19..];
        if (!Fraction(ref rest, out var ticks) || !Offset(rest, out var offsetMinutes)
            || year < 1 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month)
            || hour > 23 || minute > 59 || second > 60)
        {
            return false;
        }

        var clock = new DateTime(year, month, day, hour, minute, 0, DateTimeKind.Unspecified).AddSeconds(second).AddTicks(ticks);
        var utcTicks = clock.Ticks - (offsetMinutes * TimeSpan.TicksPerMinute);
        if (utcTicks < DateTime.MinValue.Ticks || utcTicks > DateTime.MaxValue.Ticks)
        {
            return false;
        }

        time = new DateTimeOffset(clock, TimeSpan.FromMinutes(offsetMinutes));
        return true;
    }

    private static bool Digits(ReadOnlySpan<byte> text, out int value)
    {
        value = 0;
        foreach (var digit in text)
        {
            if (digit is < (byte)'0' or > (byte)'9')
            {
                return false;
            }

            value = (value * 10) + (digit - '0');
        }

        return true;
    }

    private static bool Fraction(ref ReadOnlySpan<byte> rest, out long ticks)
    {
        ticks = 0;
        if (rest[0] != '.')
        {
            return true;
        }

        var unit = TimeSpan.TicksPerSecond / 10;
        var length = 1;
        while (length < rest.Length && rest[length] is >= (byte)'0' and <= (byte)'9')
        {
            ticks += (rest[length] - '0') * unit;
            unit /= 10;
            length++;
        }

        rest = rest[length..];
        return length > 1;
    }

    private static bool Offset(ReadOnlySpan<byte> rest, out int minutes)
    {
        minutes = 0;
        if (rest.Length == 1)
        {
            return rest[0] is (byte)'Z' or (byte)'z';
        }

        if (rest.Length != 6 || rest[0] is not ((byte)'+' or (byte)'-') || rest[3] != ':'
            || !Digits(rest[1..3], out var hours) || !Digits(rest[4..], out minutes) || hours > 14 || minutes > 59)
        {
            return false;
        }

        minutes += hours * 60;
        minutes = rest[0] == '-' ? -minutes : minutes;
        return minutes is >= -14 * 60 and <= 14 * 60;
    }
}
