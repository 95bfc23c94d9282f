using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>The shifts of a week as a table of minutes, so that asking costs nothing.</summary>
public sealed class ShiftCalendar
{
    private const int MinutesPerDay = 24 * 60;
    private const int MinutesPerWeek = 7 * MinutesPerDay;
    private const int WarmUpMinutes = 60;
    private readonly ShopPhase[] phases = new ShopPhase[MinutesPerWeek];

    /// <summary>Takes the shifts of a cell; none means two shifts from Monday to Friday and one on Saturday.</summary>
    public ShiftCalendar(IReadOnlyList<Shift> shifts)
    {
        ArgumentNullException.ThrowIfNull(shifts);
        foreach (var shift in shifts.Count > 0 ? shifts : TwoShifts()) Mark(shift);
        for (var minute = 0; minute < MinutesPerWeek; minute++)
        {
            if (phases[minute] == ShopPhase.Off && phases[(minute + WarmUpMinutes) % MinutesPerWeek] == ShopPhase.Running)
                phases[minute] = ShopPhase.WarmUp;
        }
    }

    /// <summary>The phase at a local time.</summary>
    public ShopPhase At(DateTime local) =>
        phases[((int)local.DayOfWeek * MinutesPerDay) + (local.Hour * 60) + local.Minute];

    private static Shift[] TwoShifts()
    {
        DayOfWeek[] weekdays = [DayOfWeek.Monday, DayOfWeek.Tuesday, DayOfWeek.Wednesday, DayOfWeek.Thursday, DayOfWeek.Friday];
        return
        [
            new Shift("early", new TimeOnly(6, 0), new TimeOnly(14, 0), [.. weekdays, DayOfWeek.Saturday]),
            new Shift("late", new TimeOnly(14, 0), new TimeOnly(22, 0), weekdays),
        ];
    }

    private void Mark(Shift shift)
    {
        var length = (int)(shift.To - shift.From).TotalMinutes;
        if (length == 0) length = MinutesPerDay;
        foreach (var day in shift.Days)
        {
            var first = ((int)day * MinutesPerDay) + (int)shift.From.ToTimeSpan().TotalMinutes;
            for (var i = 0; i < length; i++) phases[(first + i) % MinutesPerWeek] = ShopPhase.Running;
        }
    }
}
