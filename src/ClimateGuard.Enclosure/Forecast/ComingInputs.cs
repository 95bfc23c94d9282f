namespace ClimateGuard.Enclosure;

/// <summary>A set point that somebody has stated beforehand.</summary>
/// <param name="At">From when on.</param>
/// <param name="Celsius">The set point, in °C.</param>
public sealed record SetpointChange(DateTimeOffset At, double Celsius);

/// <summary>What is known ahead of the next four hours: set point, load of the machines, hall, doors, the next zone.</summary>
/// <remarks>
/// A stated set point counts, but while another is in force only from its next change on; else a change that came at the same time of the week
/// before is expected again. The load goes from what it is to
/// what is usual at the clock time, half in an hour; the hall keeps its distance from its usual day; an open door is expected to be shut within
/// ten minutes (each common practice, no source). What has no past stays as it is. Owned by one thread; allocates nothing.
/// </remarks>
internal sealed class ComingInputs(WorkCalendar calendar)
{
    /// <summary>How many steps are looked ahead.</summary>
    public const int Steps = 4 * 60 / ZoneCourse.StepMinutes;

    private const int DoorSteps = 10 / ZoneCourse.StepMinutes;
    private const double SameSetpointKelvins = 0.05;
    private static readonly double LoadKeep = Math.Pow(0.5, ZoneCourse.StepMinutes / 60.0);
    private readonly UsualDay load = new(calendar, 2);
    private readonly UsualDay hall = new(calendar, 2);
    private readonly double[] setpoint = new double[Steps + 1];
    private readonly double[] loads = new double[Steps + 1];
    private readonly double[] halls = new double[Steps + 1];
    private double loadNow = double.NaN;
    private double doorNow = double.NaN;
    private double usualLoad;
    private double usualHall;

    /// <summary>What is stated of the set point, ascending.</summary>
    public IReadOnlyList<SetpointChange> Stated { get; set; } = [];

    /// <summary>Air of the next zone, °C, taken to stay.</summary>
    public double NextZone { get; private set; } = double.NaN;

    /// <summary>The set point in force now and after so many steps, in °C.</summary>
    public ReadOnlySpan<double> Setpoint => setpoint;

    /// <summary>Load of the machines, kW.</summary>
    public ReadOnlySpan<double> Load => loads;

    /// <summary>Hall, °C.</summary>
    public ReadOnlySpan<double> Hall => halls;

    /// <summary>The level the air is measured from: the set point, or zero when none is known.</summary>
    public static double Level(double setpointCelsius) => double.IsNaN(setpointCelsius) ? 0 : setpointCelsius;

    /// <summary>The level after so many steps.</summary>
    public double LevelAt(int steps) => Level(setpoint[steps]);

    /// <summary>Share of the doors open after so many steps.</summary>
    public double DoorAt(int steps) => steps <= DoorSteps ? doorNow : 0;

    /// <summary>Looks ahead from the last step of the course.</summary>
    public void Look(ZoneCourse course)
    {
        usualLoad = load.At(course.LastStep);
        usualHall = hall.At(course.LastStep);
        load.Learn(course.LastStep, course.Load[^1]);
        hall.Learn(course.LastStep, course.Hall[^1]);
        (loadNow, doorNow, NextZone) = (course.Load[^1], course.Door[^1], course.NextZone[^1]);
        var hallNow = course.Hall[^1];
        for (var k = 0; k <= Steps; k++)
        {
            setpoint[k] = SetpointAfter(course, k);
            loads[k] = Faded(load, course.LastStep + k, loadNow, usualLoad, Math.Pow(LoadKeep, k));
            halls[k] = Faded(hall, course.LastStep + k, hallNow, usualHall, 1);
        }
    }

    private static double Faded(UsualDay day, long step, double now, double usualNow, double keep)
    {
        var usual = day.At(step);
        return double.IsNaN(usual) || double.IsNaN(usualNow) ? now : usual + (keep * (now - usualNow));
    }

    private double SetpointAfter(ZoneCourse course, int steps)
    {
        var now = course.Setpoint[^1];
        if (StatedAt(course.LastStep + steps) is { } stated && (Math.Abs(stated.Celsius - now) <= SameSetpointKelvins || stated != StatedAt(course.LastStep)))
            return stated.Celsius;
        var place = course.Count - 1 - ZoneCourse.StepsPerWeek;
        if (place < 0 || steps == 0) return now;
        double then = course.Setpoint[place], after = course.Setpoint[place + steps];

        // A week in which the set point stood elsewhere says nothing of this one.
        return Math.Abs(then - now) <= SameSetpointKelvins && !double.IsNaN(after) ? after : now;
    }

    private SetpointChange? StatedAt(long step)
    {
        var at = DateTimeOffset.FromUnixTimeMilliseconds((step + 1) * ZoneCourse.StepMilliseconds);
        SetpointChange? last = null;
        foreach (var change in Stated)
        {
            if (change.At > at) break;
            last = change;
        }

        return last;
    }
}
