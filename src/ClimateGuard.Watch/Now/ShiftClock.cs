using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>The shifts of a cell on the clock of its place; right on nights when the clock is changed.</summary>
internal sealed class ShiftClock(Cell cell)
{
    private readonly TimeZoneInfo zone = TimeZoneInfo.TryFindSystemTimeZoneById(cell.Description.TimeZone, out var found) ? found : TimeZoneInfo.Utc;

    // To a period no days mean every day; a shift without days never begins.
    private readonly List<LocalPeriod> periods =
        [.. cell.Description.Policies.Shifts.Where(shift => shift.Days.Count > 0).Select(shift => new LocalPeriod(shift.From, shift.To, shift.Days))];

    /// <summary>When the shift that runs at this moment ends, the earliest end when several run, or null when none runs.</summary>
    public DateTimeOffset? EndOfShift(DateTimeOffset now) => periods.Min(period => period.At(now, zone)?.End);
}
