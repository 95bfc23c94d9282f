using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>The rows of a pattern's least squares: all first axes, then all second axes, places centred and divided by their spread.</summary>
internal sealed class PatternDesign
{
    private readonly IReadOnlyList<HoleDeviation> _holes;

    private PatternDesign(IReadOnlyList<HoleDeviation> holes, double centreX, double centreY, double spread)
    {
        _holes = holes;
        CentreX = centreX;
        CentreY = centreY;
        Spread = spread;
    }

    public double CentreX { get; }

    public double CentreY { get; }

    /// <summary>√(Σ|r − r_c|²), in mm.</summary>
    public double Spread { get; }

    public static PatternDesign Of(IReadOnlyList<HoleDeviation> holes, int atLeast)
    {
        ArgumentNullException.ThrowIfNull(holes);
        if (holes.Count < atLeast)
            throw new ArgumentException($"This fit needs {atLeast} holes or more with both deviations; given: {holes.Count}.", nameof(holes));
        foreach (var hole in holes)
        {
            EvidenceInput.Finite(hole.X);
            EvidenceInput.Finite(hole.Y);
            EvidenceInput.Finite(hole.Dx);
            EvidenceInput.Finite(hole.Dy);
        }

        double[] xs = [.. holes.Select(hole => hole.X)], ys = [.. holes.Select(hole => hole.Y)];
        double centreX = Univariate.CentralMean(xs), centreY = Univariate.CentralMean(ys);
        var spread = Math.Sqrt(Univariate.SumOfSquares(xs, centreX) + Univariate.SumOfSquares(ys, centreY));
        // Places that differ by less than this share of their distance from the datum are one place and some rounding.
        if (spread <= 1e-9 * (Math.Abs(centreX) + Math.Abs(centreY)) || spread == 0)
            throw new ArgumentException("All holes lie at one place, so neither scale nor rotation can be told.", nameof(holes));
        return new PatternDesign(holes, centreX, centreY, spread);
    }

    public double[] Observed => Stack(hole => hole.Dx, hole => hole.Dy);

    public double[] TranslationX => Stack(_ => 1, _ => 0);

    public double[] TranslationY => Stack(_ => 0, _ => 1);

    public double[] Scale => Stack(hole => (hole.X - CentreX) / Spread, hole => (hole.Y - CentreY) / Spread);

    public double[] Rotation => Stack(hole => -(hole.Y - CentreY) / Spread, hole => (hole.X - CentreX) / Spread);

    /// <summary>A column multiplied hole by hole by a factor.</summary>
    public double[] Times(double[] column, IReadOnlyList<double> factors) => [.. column.Select((value, i) => value * factors[i % _holes.Count])];

    /// <summary>Least squares on columns of this design.</summary>
    public PatternSolution Solve(double[][] columns, string name)
    {
        var observed = Observed;
        var inverse = DesignInverse.Of(columns, name);
        var solution = LinearLeastSquares.Solve(columns, observed);
        return new PatternSolution([.. solution.Coefficients], inverse, solution.SumOfSquares, observed.Length - columns.Length);
    }

    private double[] Stack(Func<HoleDeviation, double> first, Func<HoleDeviation, double> second) =>
        [.. _holes.Select(first), .. _holes.Select(second)];
}

/// <summary>Coefficients with the inverse of their normal matrix and what they leave.</summary>
internal sealed record PatternSolution(double[] Coefficients, double[][] Inverse, double SumOfSquares, int DegreesOfFreedom)
{
    /// <summary>The scatter of one deviation: the one known, or that of the residuals, with the freedom to trust it by.</summary>
    public (double Sigma, double Freedom) Scatter(double? known)
    {
        if (known is { } sigma) return (EvidenceInput.Positive(sigma, "knownScatterMicrometres"), double.PositiveInfinity);
        if (DegreesOfFreedom < 1)
            throw new ArgumentException("So few holes leave no residual to estimate the scatter from; give the scatter of the measurement.", nameof(known));
        return (Math.Sqrt(SumOfSquares / DegreesOfFreedom), DegreesOfFreedom);
    }
}
