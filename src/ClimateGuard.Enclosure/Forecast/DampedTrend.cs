namespace ClimateGuard.Enclosure;

/// <summary>The air goes on as it went, less and less: Holt's level and trend, the trend damped by 0.9 in ten minutes.</summary>
/// <remarks>Weights 0.5 and 0.3: common practice, no source. It begins anew after a gap.</remarks>
internal sealed class DampedTrend : AirModel
{
    private const int Window = 36;
    private const int LeastSteps = 6;
    private static readonly double KeepPerStep = Math.Pow(0.9, ZoneCourse.StepMinutes / 10.0);

    public override AirModelKind Kind => AirModelKind.DampedTrend;

    public override void Ahead(ZoneCourse course, ComingInputs coming, ReadOnlySpan<int> steps, Span<double> celsius)
    {
        var air = course.Air;
        var from = air.Length;
        while (from > Math.Max(0, air.Length - Window) && !double.IsNaN(air[from - 1])) from--;
        if (air.Length - from < LeastSteps)
        {
            celsius.Fill(double.NaN);
            return;
        }

        var state = Holt.Over(air[from..], 0.5, 0.3, KeepPerStep);
        for (var h = 0; h < steps.Length; h++) celsius[h] = state.After(steps[h]);
    }
}

/// <summary>Level and trend of a series by exponential smoothing, the trend damped (Gardner and McKenzie 1985, from memory).</summary>
/// <param name="Level">The level at the end.</param>
/// <param name="Trend">The trend at the end, per step.</param>
/// <param name="Keep">What is left of a trend after one step; 1 is Holt's own.</param>
internal readonly record struct Holt(double Level, double Trend, double Keep)
{
    /// <summary>Smooths a series of at least two values; it begins with the second value and the first difference.</summary>
    public static Holt Over(ReadOnlySpan<double> values, double levelWeight, double trendWeight, double keep)
    {
        double level = values[1], trend = values[1] - values[0];
        for (var t = 2; t < values.Length; t++)
        {
            var foretold = level + (keep * trend);
            var next = foretold + (levelWeight * (values[t] - foretold));
            trend = (trendWeight * (next - level)) + ((1 - trendWeight) * keep * trend);
            level = next;
        }

        return new Holt(level, trend, keep);
    }

    /// <summary>The value expected after so many steps.</summary>
    public double After(int steps) =>
        Keep == 1 ? Level + (steps * Trend) : Level + (Trend * Keep * (1 - Math.Pow(Keep, steps)) / (1 - Keep));
}
