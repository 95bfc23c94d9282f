namespace ClimateGuard.Evidence;

/// <summary>One round of York's iteration at a slope: weights, centre, adjusted points.</summary>
internal readonly struct YorkStep
{
    private readonly double[] _weights;
    private readonly double[] _betas;
    private readonly double _meanX;
    private readonly double _meanY;

    private YorkStep(double[] weights, double[] betas, double meanX, double meanY, double slope)
    {
        _weights = weights;
        _betas = betas;
        _meanX = meanX;
        _meanY = meanY;
        Slope = slope;
    }

    /// <summary>The next slope.</summary>
    public double Slope { get; }

    public static YorkStep At(IReadOnlyList<UncertainPoint> points, double slope)
    {
        // The equations of the paper with ω(X) = 1/uX² and ω(Y) = 1/uY² multiplied out, so that a uX of 1e-9 overflows nothing.
        double[] weights = [.. points.Select(p => 1 / ((p.UY * p.UY) + (slope * slope * p.UX * p.UX) - (2 * slope * p.Correlation * p.UX * p.UY)))];
        var total = weights.Sum();
        double meanX = 0, meanY = 0;
        for (var i = 0; i < weights.Length; i++)
        {
            meanX += weights[i] * points[i].X / total;
            meanY += weights[i] * points[i].Y / total;
        }

        var betas = new double[weights.Length];
        double above = 0, below = 0;
        for (var i = 0; i < weights.Length; i++)
        {
            var p = points[i];
            double u = p.X - meanX, v = p.Y - meanY;
            betas[i] = weights[i] * ((u * p.UY * p.UY) + (slope * v * p.UX * p.UX) - (((slope * u) + v) * p.Correlation * p.UX * p.UY));
            above += weights[i] * betas[i] * v;
            below += weights[i] * betas[i] * u;
        }

        return new YorkStep(weights, betas, meanX, meanY, above / below);
    }

    public LineFit Line(IReadOnlyList<UncertainPoint> points)
    {
        var intercept = _meanY - (Slope * _meanX);
        double total = _weights.Sum(), meanBeta = 0, spread = 0, scatter = 0;
        for (var i = 0; i < _weights.Length; i++) meanBeta += _weights[i] * _betas[i] / total;
        for (var i = 0; i < _weights.Length; i++)
        {
            spread += _weights[i] * (_betas[i] - meanBeta) * (_betas[i] - meanBeta);
            var miss = points[i].Y - (Slope * points[i].X) - intercept;
            scatter += _weights[i] * miss * miss;
        }

        var centre = _meanX + meanBeta;
        var freedom = points.Count - 2;
        return new LineFit(
            new Estimate(intercept, Math.Sqrt((1 / total) + (centre * centre / spread)), double.PositiveInfinity),
            new Estimate(Slope, Math.Sqrt(1 / spread), double.PositiveInfinity),
            new ChiSquareResult(scatter, freedom, Tail.ChiSquare(scatter, freedom)));
    }
}
