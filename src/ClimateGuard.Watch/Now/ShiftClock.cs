using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>The shifts of a cell on the clock of its place; right on nights when the clock is changed.</summary>
internal sealed class ShiftClock(Cell cell)
{
    private readonly TimeZoneInfo zone = TimeZoneInfo.TryFindSystemTimeZoneById(cell.Description.TimeZone, out var found) ? found : TimeZoneInfo.Utc;

    /// <summary>When the shift that runs at this moment ends, or null when none runs.</summary>
    public DateTimeOffset? EndOfShift(DateTimeOffset now)
    {
        DateTimeOffset? end = null;
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).DateTime);
        foreach (var shift in cell.Description.Policies.Shifts)
        {
            foreach (var day in (ReadOnlySpan<DateOnly>)[today.AddDays(-1), today])
            {
                if (!shift.Days.Contains(day.DayOfWeek))
                {
                    continue;
                }

                var last = shift.To <= shift.From ? day.AddDays(1) : day;
                var (begin, close) = (ToUtc(day, shift.From), ToUtc(last, shift.To));
                if (begin <= now && now < close && (end is null || close < end))
                {
                    end = close;
                }
            }
        }

        return end;
    }

    private DateTimeOffset ToUtc(DateOnly day, TimeOnly time)
    {
        var local = day.ToDateTime(time, DateTimeKind.Unspecified);

        // An hour that the clock skips is taken as the hour after it, an hour that comes twice as its first time.
        if (zone.IsInvalidTime(local))
        {
            local = local.AddHours(1);
        }

        var offset = zone.IsAmbiguousTime(local) ? zone.GetAmbiguousTimeOffsets(local).Max() : zone.GetUtcOffset(local);
        return new DateTimeOffset(local, offset).ToUniversalTime();
    }
}
