using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>Which shift a moment belongs to, on the clock of the place.</summary>
/// <remarks>Without shifts in the plant file: thirds of the day from 06:00. Parts of one machine in one shift are one episode.</remarks>
/// <param name="shifts">The shifts of the plant file.</param>
/// <param name="zone">The time zone of the place.</param>
public sealed class ShiftLabels(IReadOnlyList<Shift> shifts, TimeZoneInfo zone)
{
    private static readonly Shift[] Thirds =
    [
        new("early", new TimeOnly(6, 0), new TimeOnly(14, 0), []), new("late", new TimeOnly(14, 0), new TimeOnly(22, 0), []), new("night", new TimeOnly(22, 0), new TimeOnly(6, 0), []),
    ];

    private readonly IReadOnlyList<Shift> all = shifts.Count > 0 ? shifts : Thirds;

    /// <summary>The name of the shift, and the date it began on.</summary>
    /// <param name="moment">The moment.</param>
    public (string Name, DateOnly Began) At(DateTimeOffset moment)
    {
        var local = TimeZoneInfo.ConvertTime(moment, zone);
        var (date, time) = (DateOnly.FromDateTime(local.DateTime), TimeOnly.FromDateTime(local.DateTime));
        foreach (var shift in all)
        {
            if (!time.IsBetween(shift.From, shift.To)) continue;
            var began = shift.To <= shift.From && time < shift.To ? date.AddDays(-1) : date;
            if (shift.Days.Count == 0 || shift.Days.Contains(began.DayOfWeek)) return (shift.Name, began);
        }

        return ("between shifts", date);
    }
}
