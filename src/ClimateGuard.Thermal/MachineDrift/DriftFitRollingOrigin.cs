namespace ClimateGuard.Thermal;

/// <summary>Fits on what came before and compares with what came after, block by block.</summary>
internal static class DriftFitRollingOrigin
{
    private const int Blocks = 4;

    /// <summary>The least that is learned from, in h: a day, so that the daily cycle has been seen once.</summary>
    private const double LeastLearned = 24.0;

    /// <summary>The least that can be validated, in h.</summary>
    public const double LeastHours = 36.0;

    /// <summary>Validates on the longest stretch, or returns null when it is shorter than <see cref="LeastHours"/>.</summary>
    public static DriftFitValidation? Run(DriftFitDesign design, DriftFitOptions options)
    {
        var duration = design.LongestHours;
        if (duration < LeastHours)
        {
            return null;
        }

        var first = Array.IndexOf(design.StretchOfRow, design.LongestStretch);
        var end = Array.LastIndexOf(design.StretchOfRow, design.LongestStretch) + 1;
        var begin = design.Hours[first];
        var learned = Math.Max(LeastLearned, duration / 2.0);
        var block = (duration - learned) / Blocks;
        double fit = 0.0, mean = 0.0, last = 0.0, without = 0.0;
        var tested = 0;
        for (var k = 0; k < Blocks; k++)
        {
            var origin = RowAt(design, first, end, begin + learned + (k * block));
            var until = k == Blocks - 1 ? end : RowAt(design, first, end, begin + learned + ((k + 1) * block));
            var (predicted, withoutTemperature) = Foretell(design, options, new DriftFitRows(first, origin - first));
            var meanBefore = design.Displacement.AsSpan(first, origin - first).ToArray().Average();
            for (var row = origin; row < until; row++)
            {
                var seen = design.Displacement[row];
                fit += Square(seen - predicted[row]);
                without += Square(seen - withoutTemperature[row]);
                mean += Square(seen - meanBefore);
                last += Square(seen - design.Displacement[origin - 1]);
                tested++;
            }
        }

        double Rms(double squares) => Math.Sqrt(squares / tested);
        var better = Rms(fit) < (1.0 - options.MinimumImprovement) * Math.Min(Rms(without), Math.Min(Rms(mean), Rms(last)));
        return new DriftFitValidation(Rms(fit), Rms(mean), Rms(last), Rms(without), Blocks, TimeSpan.FromHours(block), better);
    }

    private static (double[] Chosen, double[] WithoutTemperature) Foretell(
        DriftFitDesign design, DriftFitOptions options, DriftFitRows seen)
    {
        var solver = new DriftFitSolver(design, options.FitInitialState, seen);
        var choice = DriftFitChoice.Of(new DriftFitSearch(solver, options), options);
        return (solver.Predict(choice.Chosen), solver.Predict(choice.WithoutTemperature));
    }

    private static int RowAt(DriftFitDesign design, int first, int end, double hours)
    {
        var row = first;
        while (row < end && design.Hours[row] < hours)
        {
            row++;
        }

        return row;
    }

    private static double Square(double value) => value * value;
}
