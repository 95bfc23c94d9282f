using System.Runtime.Intrinsics;

namespace ClimateGuard.Thermal;

/// <summary>A smooth function on [−1, 1] as a sum of Chebyshev polynomials, evaluated for four paths at once by Clenshaw's rule (1955).</summary>
/// <remarks>Additions and multiplications only, so the same bits on every machine. Immutable.</remarks>
internal sealed class ChebyshevSeries
{
    /// <summary>How many points a function is read at.</summary>
    public const int Nodes = 24;

    private readonly double[] coefficients;

    private ChebyshevSeries(double[] coefficients) => this.coefficients = coefficients;

    /// <summary>The point of node k, in [−1, 1].</summary>
    public static double Node(int k) => Math.Cos(Math.PI * (k + 0.5) / Nodes);

    /// <summary>The series through one value at each node.</summary>
    public static ChebyshevSeries Through(ReadOnlySpan<double> values)
    {
        var coefficients = new double[Nodes];
        var largest = 0.0;
        for (var j = 0; j < Nodes; j++)
        {
            var sum = 0.0;
            for (var k = 0; k < Nodes; k++)
            {
                sum += values[k] * Math.Cos(Math.PI * j * (k + 0.5) / Nodes);
            }

            coefficients[j] = sum * (j == 0 ? 1.0 : 2.0) / Nodes;
            largest = Math.Max(largest, Math.Abs(coefficients[j]));
        }

        // Terms at the noise of the arithmetic carry nothing.
        var used = Nodes;
        while (used > 1 && Math.Abs(coefficients[used - 1]) <= 1e-14 * largest)
        {
            used--;
        }

        return new(coefficients[..used]);
    }

    /// <summary>The value for four paths.</summary>
    public Vector256<double> At(Vector256<double> t)
    {
        var c = coefficients;
        var next = Vector256<double>.Zero;
        var afterNext = Vector256<double>.Zero;
        var twice = t + t;
        for (var j = c.Length - 1; j >= 1; j--)
        {
            (next, afterNext) = ((twice * next) - afterNext + Vector256.Create(c[j]), next);
        }

        return (t * next) - afterNext + Vector256.Create(c[0]);
    }
}
