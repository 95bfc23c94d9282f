namespace ClimateGuard.Enclosure;

/// <summary>JᵀJ and Jᵀr of a least-squares step, solved by Cholesky with Marquardt's damping.</summary>
internal sealed class NormalEquations
{
    private readonly double[,] products;
    private readonly double[] gradient;

    private NormalEquations(double[,] products, double[] gradient) => (this.products, this.gradient) = (products, gradient);

    public static NormalEquations Of(double[][] columns, ReadOnlySpan<double> residuals)
    {
        var n = columns.Length;
        var products = new double[n, n];
        var gradient = new double[n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++) products[i, j] = products[j, i] = Dot(columns[i], columns[j]);
            gradient[i] = Dot(columns[i], residuals);
        }

        return new NormalEquations(products, gradient);
    }

    /// <summary>The step, or null when the equations say nothing.</summary>
    public double[]? Solve(double damping)
    {
        var n = gradient.Length;
        var root = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = products[i, j] + (i == j ? damping * Math.Max(products[i, i], 1e-12) : 0);
                for (var k = 0; k < j; k++) sum -= root[i, k] * root[j, k];
                if (i == j && !(sum > 0)) return null;
                root[i, j] = i == j ? Math.Sqrt(sum) : sum / root[j, j];
            }
        }

        var step = new double[n];
        for (var i = 0; i < n; i++)
        {
            var sum = gradient[i];
            for (var k = 0; k < i; k++) sum -= root[i, k] * step[k];
            step[i] = sum / root[i, i];
        }

        for (var i = n - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < n; k++) step[i] -= root[k, i] * step[k];
            step[i] /= root[i, i];
        }

        return step;
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double sum = 0;
        for (var i = 0; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }
}
