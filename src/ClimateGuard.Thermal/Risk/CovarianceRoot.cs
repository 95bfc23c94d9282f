namespace ClimateGuard.Thermal;

/// <summary>A lower triangular L with L·Lᵀ = P, for a P that may be singular (Cholesky with zero pivots left out).</summary>
internal static class CovarianceRoot
{
    public static double[] Of(ReadOnlySpan<double> covariance, int count)
    {
        var root = new double[count * count];
        Fill(covariance, count, root);
        return root;
    }

    public static void Fill(ReadOnlySpan<double> covariance, int count, Span<double> root)
    {
        root[..(count * count)].Clear();
        for (var j = 0; j < count; j++)
        {
            var pivot = covariance[(j * count) + j];
            var scale = Math.Max(pivot, 1e-300);
            for (var k = 0; k < j; k++)
            {
                pivot -= root[(j * count) + k] * root[(j * count) + k];
            }

            // What is left of a variance after rounding is noise of the arithmetic, not of the part.
            if (pivot <= 1e-12 * scale)
            {
                continue;
            }

            var diagonal = Math.Sqrt(pivot);
            root[(j * count) + j] = diagonal;
            for (var i = j + 1; i < count; i++)
            {
                var sum = covariance[(i * count) + j];
                for (var k = 0; k < j; k++)
                {
                    sum -= root[(i * count) + k] * root[(j * count) + k];
                }

                root[(i * count) + j] = sum / diagonal;
            }
        }
    }
}
