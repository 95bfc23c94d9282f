namespace ClimateGuard.Enclosure;

/// <summary>The air goes back to its operating level: the coming set point and what the air usually has above it.</summary>
internal sealed class Reversion : AirModel
{
    private const int MostSteps = ZoneCourse.StepsPerWeek;
    private const int LeastSteps = 36;
    private readonly double[] departures = new double[MostSteps];
    private Ar1 fitted = new(double.NaN, 0, double.NaN);

    public override AirModelKind Kind => AirModelKind.Reversion;

    public override void Learn(ZoneCourse course)
    {
        ReadOnlySpan<double> air = course.Air, asked = course.Setpoint;
        var regimes = course.Regimes;
        var from = Math.Max(0, air.Length - MostSteps);
        var known = 0;
        for (var i = from; i < air.Length; i++)
        {
            var usable = regimes[i] is Regime.InControl or Regime.SetBack && !double.IsNaN(air[i]);
            departures[i - from] = usable ? air[i] - ComingInputs.Level(asked[i]) : double.NaN;
            if (usable) known++;
        }

        fitted = known < LeastSteps ? new Ar1(double.NaN, 0, double.NaN) : Ar1.Fit(departures.AsSpan(0, air.Length - from));
    }

    public override void Ahead(ZoneCourse course, ComingInputs coming, ReadOnlySpan<int> steps, Span<double> celsius)
    {
        // Where the set point moves, what the air has above the old one becomes its departure from the new one.
        for (var h = 0; h < steps.Length; h++)
        {
            var level = coming.LevelAt(steps[h]);
            celsius[h] = level + fitted.After(course.Air[^1] - level, steps[h]);
        }
    }
}
