namespace ClimateGuard.Thermal;

/// <summary>The two streams an input of a Monte Carlo draws from; each input has its own, so adding one leaves the others unchanged.</summary>
internal sealed class DrawSource(ulong seed)
{
    /// <summary>Numbers spread evenly over [0, 1).</summary>
    public UniformStream Uniform { get; } = new(SplitMix64.Child(seed, 0));

    /// <summary>Standard normal numbers.</summary>
    public GaussianStream Gaussian { get; } = new(SplitMix64.Child(seed, 1));

    /// <summary>A draw of the gamma distribution with scale 1 (Marsaglia and Tsang 2000).</summary>
    /// <param name="shape">Shape, 1 or more.</param>
    public double Gamma(double shape)
    {
        var d = shape - (1.0 / 3);
        var c = 1 / Math.Sqrt(9 * d);
        while (true)
        {
            var x = Gaussian.Next();
            var root = 1 + (c * x);
            if (root <= 0) continue;
            var v = root * root * root;
            var u = 1 - Uniform.Next();
            if (PortableMath.Log(u) < (0.5 * x * x) + (d * (1 - v + PortableMath.Log(v)))) return d * v;
        }
    }
}
