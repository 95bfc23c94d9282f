namespace ClimateGuard.Thermal;

/// <summary>What a chain of first-order nodes hands on: x_k(t)/tᵏ for a unit start of the first, each node driven by the one before with gain 1.</summary>
/// <remarks>
/// It is the divided difference of exp at −rate·t of the nodes (Opitz 1964), so equal and nearly equal rates are no exception. Differences over
/// more than <see cref="Near"/> are divided as they are, closer ones are summed as a Taylor series about their mean (McCurdy, Ng and Parlett,
/// Math. Comp. 43 (1984) 501). Accurate to about 1e-13 of its largest term.
/// </remarks>
internal static class CascadeResponse
{
    private const double Near = 0.5;
    private const int Terms = 18;

    /// <summary>The response of one node: exp(−ratio).</summary>
    public static double Of(double ratio) => Math.Exp(-ratio);

    /// <summary>The response of a second node behind a first; for a rate of 0 first, (1 − exp(−ratio))/ratio.</summary>
    public static double Of(double first, double second) => Of([first, second]);

    /// <summary>The response of the last of three nodes.</summary>
    public static double Of(double first, double second, double third) => Of([first, second, third]);

    /// <summary>The response of the last of four nodes.</summary>
    public static double Of(double first, double second, double third, double fourth) => Of([first, second, third, fourth]);

    /// <summary>The response of the last of a few nodes; the order of the rates does not matter.</summary>
    /// <param name="ratios">Rate times time of each node, 0 or more, finite.</param>
    public static double Of(ReadOnlySpan<double> ratios)
    {
        Span<double> z = stackalloc double[ratios.Length];
        Span<double> difference = stackalloc double[ratios.Length];
        ratios.CopyTo(z);
        z.Sort();
        for (var i = 0; i < z.Length; i++)
        {
            z[i] = -z[i];
            difference[i] = Math.Exp(z[i]);
        }

        for (var span = 1; span < z.Length; span++)
        {
            for (var i = 0; i + span < z.Length; i++)
            {
                var gap = z[i] - z[i + span];
                difference[i] = gap > Near ? (difference[i] - difference[i + 1]) / gap : Series(z.Slice(i, span + 1));
            }
        }

        return difference[0];
    }

    /// <summary>exp(m)·Σ h_j(z − m)/(j + k)! with h_j the complete symmetric polynomials.</summary>
    private static double Series(ReadOnlySpan<double> z)
    {
        var mean = 0.0;
        foreach (var value in z)
        {
            mean += value / z.Length;
        }

        Span<double> h = stackalloc double[Terms];
        h.Clear();
        h[0] = 1;
        foreach (var value in z)
        {
            for (var j = 1; j < Terms; j++)
            {
                h[j] += (value - mean) * h[j - 1];
            }
        }

        double sum = 0, factorial = 1;
        for (var k = 2; k < z.Length; k++)
        {
            factorial *= k;
        }

        for (var j = 0; j < Terms; j++)
        {
            sum += h[j] / factorial;
            factorial *= j + z.Length;
        }

        return Math.Exp(mean) * sum;
    }
}
