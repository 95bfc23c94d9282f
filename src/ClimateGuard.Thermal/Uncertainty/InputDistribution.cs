namespace ClimateGuard.Thermal;

/// <summary>What is known of an input of a Monte Carlo, as a distribution; the kinds of JCGM 101, table 1.</summary>
/// <remarks>Equality is by value. Immutable, so safe across threads. A number out of range is refused when the distribution is made.</remarks>
public sealed record InputDistribution
{
    private enum Kind
    {
        Gaussian,
        StudentT,
        Rectangular,
        Triangular,
        Arcsine,
        CurvilinearTrapezoid,
    }

    private readonly Kind _kind;
    private readonly double _shape;

    private InputDistribution(Kind kind, double centre, double width, double shape = 0)
    {
        _kind = kind;
        Centre = FormulaInput.Finite(centre, "");
        Width = FormulaInput.NotNegative(width, "");
        _shape = shape;
    }

    /// <summary>The middle, which is the mean as well: every kind is symmetric.</summary>
    public double Centre { get; }

    /// <summary>The standard deviation of a normal, the scale of a t-distribution, the half width of the others.</summary>
    public double Width { get; }

    /// <summary>A normal distribution (6.4.7).</summary>
    /// <param name="mean">Its mean.</param>
    /// <param name="standardDeviation">Its standard deviation, 0 or more.</param>
    /// <returns>The distribution.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static InputDistribution Gaussian(double mean, double standardDeviation) => new(Kind.Gaussian, mean, standardDeviation);

    /// <summary>A scaled and shifted t-distribution, for a mean of few readings (6.4.9).</summary>
    /// <param name="mean">Its mean.</param>
    /// <param name="scale">The standard uncertainty of the mean, 0 or more; the standard deviation is √(ν/(ν − 2)) times as large.</param>
    /// <param name="degreesOfFreedom">ν, in [2, 1e9]; with 2 the standard deviation is not finite.</param>
    /// <returns>The distribution.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static InputDistribution StudentT(double mean, double scale, double degreesOfFreedom) =>
        new(Kind.StudentT, mean, scale, FormulaInput.InRange(degreesOfFreedom, 2, 1e9, ""));

    /// <summary>Any value between two limits as likely (6.4.2).</summary>
    /// <param name="low">The lower limit.</param>
    /// <param name="high">The upper limit, not below the lower.</param>
    /// <returns>The distribution.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static InputDistribution Rectangular(double low, double high) => Between(Kind.Rectangular, low, high);

    /// <summary>Between two limits, the middle most likely (6.4.5).</summary>
    /// <param name="low">The lower limit.</param>
    /// <param name="high">The upper limit, not below the lower.</param>
    /// <returns>The distribution.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static InputDistribution Triangular(double low, double high) => Between(Kind.Triangular, low, high);

    /// <summary>A sinusoidal swing between two limits, met at any moment (6.4.6).</summary>
    /// <param name="low">The lower limit.</param>
    /// <param name="high">The upper limit, not below the lower.</param>
    /// <returns>The distribution.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static InputDistribution Arcsine(double low, double high) => Between(Kind.Arcsine, low, high);

    /// <summary>Any value as likely between two limits that are themselves known to ±d (6.4.3).</summary>
    /// <param name="low">The lower limit.</param>
    /// <param name="high">The upper limit, not below the lower.</param>
    /// <param name="limitHalfWidth">d, in [0, half the distance of the limits].</param>
    /// <returns>The distribution.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static InputDistribution CurvilinearTrapezoid(double low, double high, double limitHalfWidth)
    {
        var plain = Between(Kind.CurvilinearTrapezoid, low, high);
        // A d typed to the last digit may exceed the half width by its rounding.
        FormulaInput.InRange(limitHalfWidth, 0, plain.Width * (1 + 1e-12), "");
        return new(Kind.CurvilinearTrapezoid, plain.Centre, plain.Width, limitHalfWidth);
    }

    internal void Fill(Span<double> draws, DrawSource source)
    {
        if (_kind == Kind.Gaussian) source.Gaussian.Fill(draws);
        else if (_kind != Kind.StudentT) source.Uniform.Fill(draws);
        switch (_kind)
        {
            case Kind.StudentT:
                foreach (ref var draw in draws) draw = source.Gaussian.Next() * Math.Sqrt(_shape / (2 * source.Gamma(_shape / 2)));
                break;
            case Kind.Rectangular:
                foreach (ref var draw in draws) draw = (2 * draw) - 1;
                break;
            case Kind.Triangular:
                foreach (ref var draw in draws) draw += source.Uniform.Next() - 1;
                break;
            case Kind.Arcsine:
                foreach (ref var draw in draws) draw = PortableMath.SineOfTurns(draw);
                break;
            case Kind.CurvilinearTrapezoid:
                foreach (ref var draw in draws) draw = TrapezoidDraw(draw, source.Uniform.Next());
                return;
        }

        foreach (ref var draw in draws) draw = Centre + (Width * draw);
    }

    // JCGM 101, 6.4.3.4: the lower limit is drawn, the upper mirrors it, the value lies evenly between them.
    private double TrapezoidDraw(double first, double second)
    {
        var lower = -Width - _shape + (2 * _shape * first);
        return Centre + lower + (-2 * lower * second);
    }

    private static InputDistribution Between(Kind kind, double low, double high)
    {
        FormulaInput.Finite(low, "");
        FormulaInput.InRange(high, low, double.MaxValue, "");
        return new(kind, low + ((high - low) / 2), (high - low) / 2);
    }
}
