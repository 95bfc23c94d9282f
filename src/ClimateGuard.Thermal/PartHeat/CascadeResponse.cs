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

    private static readonly double[] InverseFactorial = Inverses();

    /// <summary>The response of a second node behind a first; for a rate of 0 first, (1 − exp(−ratio))/ratio.</summary>
    public static double Of(double first, double second)
    {
        var slow = Math.Min(first, second);
        var gap = Math.Abs(first - second);
        return gap > Near ? (Math.Exp(-slow) - Math.Exp(-slow - gap)) / gap : Of([first, second]);
    }

    /// <summary>The response of the last of three nodes.</summary>
    public static double Of(double first, double second, double third) => Of([first, second, third]);

    /// <summary>The response of the last of four nodes.</summary>
    public static double Of(double first, double second, double third, double fourth) => Of([first, second, third, fourth]);

    /// <summary>The response of the last of a few nodes; the order of the rates does not matter.</summary>
    /// <param name="ratios">Rate times time of each node, 0 or more, finite.</param>
    public static double Of(ReadOnlySpan<double> ratios)
    {
        Span<double> z = stackalloc double[ratios.Length];
        for (var i = 0; i < z.Length; i++)
        {
            var at = i;
            for (; at > 0 && z[at - 1] < -ratios[i]; at--)
            {
                z[at] = z[at - 1];
            }

            z[at] = -ratios[i];
        }

        return Between(z);
    }

    /// <summary>Over exponents in falling order.</summary>
    private static double Between(ReadOnlySpan<double> z)
    {
        var gap = z[0] - z[^1];
        if (gap <= Near)
        {
            return Series(z, gap);
        }

        return z.Length == 2 ? (Math.Exp(z[0]) - Math.Exp(z[1])) / gap : (Between(z[..^1]) - Between(z[1..])) / gap;
    }

    /// <summary>exp(m)·Σ h_j(z − m)/(j + k)! with h_j the complete symmetric polynomials, as far as they still count.</summary>
    private static double Series(ReadOnlySpan<double> z, double gap)
    {
        var middle = (z[0] + z[^1]) / 2;
        var terms = gap < 0.002 ? 6 : gap < 0.05 ? 9 : Terms;
        Span<double> h = stackalloc double[Terms];
        h[..terms].Clear();
        h[0] = 1;
        foreach (var value in z)
        {
            for (var j = 1; j < terms; j++)
            {
                h[j] += (value - middle) * h[j - 1];
            }
        }

        var sum = 0.0;
        for (var j = terms - 1; j >= 0; j--)
        {
            sum += h[j] * InverseFactorial[j + z.Length - 1];
        }

        return Math.Exp(middle) * sum;
    }

    private static double[] Inverses()
    {
        var inverses = new double[Terms + 8];
        var factorial = 1.0;
        for (var j = 0; j < inverses.Length; j++)
        {
            factorial *= Math.Max(1, j);
            inverses[j] = 1 / factorial;
        }

        return inverses;
    }
}
