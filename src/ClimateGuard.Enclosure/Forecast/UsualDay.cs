namespace ClimateGuard.Enclosure;

/// <summary>What a signal usually is at a clock time: the mean of the last ten days of the same kind.</summary>
/// <remarks>Owned by one thread; allocates nothing after it was made.</remarks>
internal sealed class UsualDay
{
    private const int Days = 10;
    private const int StepsPerDay = 24 * 60 / ZoneCourse.StepMinutes;
    private readonly int leastDays;
    private readonly WorkCalendar calendar;
    private readonly float[] values;
    private readonly byte[] counts;
    private readonly byte[] next;

    /// <param name="calendar">Which days are alike.</param>
    /// <param name="leastDays">How many days make something usual.</param>
    public UsualDay(WorkCalendar calendar, int leastDays = 3)
    {
        this.calendar = calendar;
        this.leastDays = leastDays;
        values = new float[calendar.Kinds * StepsPerDay * Days];
        counts = new byte[calendar.Kinds * StepsPerDay];
        next = new byte[calendar.Kinds * StepsPerDay];
    }

    /// <summary>Takes the value of a step; a gap teaches nothing.</summary>
    public void Learn(long step, double value)
    {
        if (double.IsNaN(value)) return;
        var cell = Cell(step);
        values[(cell * Days) + next[cell]] = (float)value;
        next[cell] = (byte)((next[cell] + 1) % Days);
        if (counts[cell] < Days) counts[cell]++;
    }

    /// <summary>What is usual at a step; NaN when too few days have shown it.</summary>
    public double At(long step)
    {
        var cell = Cell(step);
        if (counts[cell] < leastDays) return double.NaN;
        double sum = 0;
        for (var k = 0; k < counts[cell]; k++) sum += values[(cell * Days) + k];
        return sum / counts[cell];
    }

    private int Cell(long step)
    {
        var (kind, _, within) = calendar.At(step * ZoneCourse.StepMilliseconds);
        return (kind * StepsPerDay) + (int)(within / ZoneCourse.StepMilliseconds);
    }
}
