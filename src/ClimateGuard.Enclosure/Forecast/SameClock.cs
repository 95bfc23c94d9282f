namespace ClimateGuard.Enclosure;

/// <summary>The air does what it did at the same clock time on the last ten days of that kind; a departure from the usual day fades.</summary>
internal sealed class SameClock(WorkCalendar calendar) : AirModel
{
    private const int MostSteps = ZoneCourse.StepsPerWeek;
    private readonly UsualDay usual = new(calendar);
    private readonly double[] departures = NoDepartures();
    private int place;
    private long lastStep = long.MaxValue;
    private double keep;

    public override AirModelKind Kind => AirModelKind.SameClock;

    public override void Take(ZoneCourse course)
    {
        if (course.LastStep - lastStep > 1) Keep(double.NaN);
        lastStep = course.LastStep;
        var above = course.Air[^1] - ComingInputs.Level(course.Setpoint[^1]);
        Keep(above - usual.At(course.LastStep));
        usual.Learn(course.LastStep, above);
    }

    public override void Learn(ZoneCourse course) => keep = Math.Clamp(KeepOfDepartures(), 0, 0.999);

    public override void Ahead(ZoneCourse course, ComingInputs coming, ReadOnlySpan<int> steps, Span<double> celsius)
    {
        var departure = departures[(place + MostSteps - 1) % MostSteps];
        for (var h = 0; h < steps.Length; h++)
        {
            celsius[h] = coming.LevelAt(steps[h]) + usual.At(course.LastStep + steps[h])
                + (double.IsNaN(departure) ? 0 : Math.Pow(keep, steps[h]) * departure);
        }
    }

    private void Keep(double departure)
    {
        departures[place] = departure;
        place = (place + 1) % MostSteps;
    }

    // About zero, not about their mean: a departure fades to the usual day.
    private double KeepOfDepartures()
    {
        double squares = 0, products = 0;
        for (var k = 1; k < MostSteps; k++)
        {
            double before = departures[(place + k - 1) % MostSteps], after = departures[(place + k) % MostSteps];
            if (double.IsNaN(before) || double.IsNaN(after)) continue;
            squares += before * before;
            products += before * after;
        }

        return squares > 0 ? products / squares : 0;
    }

    private static double[] NoDepartures()
    {
        var none = new double[MostSteps];
        Array.Fill(none, double.NaN);
        return none;
    }
}
