namespace ClimateGuard.Enclosure;

/// <summary>A local day within a frame.</summary>
/// <param name="Date">The date where the cell stands.</param>
/// <param name="Frame">Its minutes.</param>
public sealed record LocalDay(DateOnly Date, SignalFrame Frame);

/// <summary>Cuts a frame into the days of the cell's time zone.</summary>
internal static class LocalDays
{
    /// <summary>The days that have any reading, in order.</summary>
    public static IReadOnlyList<LocalDay> Of(SignalFrame frame, TimeZoneInfo zone)
    {
        var days = new List<LocalDay>();
        var from = 0;
        while (from < frame.Minutes)
        {
            var date = DateOf(frame, from, zone);
            var to = Math.Min(frame.Minutes, from + 1);
            while (to < frame.Minutes && DateOf(frame, to, zone) == date) to = NextTo(frame, to, date, zone);
            var day = frame.Slice(from, to - from);
            if (day.KnownMinutes > 0) days.Add(new LocalDay(date, day));
            from = to;
        }

        return days;
    }

    // Time zones differ from UTC by quarters of an hour, so a day ends on one.
    private static int NextTo(SignalFrame frame, int minute, DateOnly date, TimeZoneInfo zone)
    {
        var ahead = Math.Min(frame.Minutes - 1, minute + 15);
        return DateOf(frame, ahead, zone) == date ? ahead + (ahead == frame.Minutes - 1 ? 1 : 0) : minute + 1;
    }

    private static DateOnly DateOf(SignalFrame frame, int minute, TimeZoneInfo zone) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(frame.TimeOf(minute), zone).DateTime);
}
