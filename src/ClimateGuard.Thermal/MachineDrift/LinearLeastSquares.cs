using System.Numerics;
using System.Runtime.InteropServices;

namespace ClimateGuard.Thermal;

/// <summary>Linear least squares by Householder reflections.</summary>
/// <remarks>
/// Golub and Van Loan, Matrix Computations, "Householder QR" (from memory). Written here because the drift fit solves a tall system of
/// a few columns some ten thousand times and a general factorisation that allocates and forms Q costs several times as much.
/// A column that depends on the ones before it gets the coefficient 0.
/// </remarks>
public static class LinearLeastSquares
{
    // A column this much shorter than itself after removing the others carries rounding, not information.
    private const double DependentShare = 1e-11;

    /// <summary>The coefficients that make the sum of squared residuals smallest.</summary>
    /// <param name="columns">Each as long as <paramref name="observations"/>; at most as many as there are observations.</param>
    /// <param name="observations">What is to be explained.</param>
    /// <returns>The coefficients and the sum of squared residuals.</returns>
    /// <exception cref="ArgumentException">
    /// A column has another length, there is none, or there are more columns than observations.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static LinearSolution Solve(IReadOnlyList<IReadOnlyList<double>> columns, IReadOnlyList<double> observations)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(observations);
        var rows = observations.Count;
        if (columns.Count == 0 || columns.Count > rows || columns.Any(column => column.Count != rows))
        {
            throw new ArgumentException(
                $"Needed: 1 to {rows} columns of {rows} values; given: {columns.Count} of {string.Join(", ", columns.Select(c => c.Count))}.",
                nameof(columns));
        }

        var matrix = new double[columns.Count * rows];
        for (var k = 0; k < columns.Count; k++)
        {
            CopyTo(columns[k], matrix.AsSpan(k * rows, rows));
        }

        var y = new double[rows];
        CopyTo(observations, y);
        if (!Array.TrueForAll(matrix, double.IsFinite) || !Array.TrueForAll(y, double.IsFinite))
        {
            throw new ArgumentOutOfRangeException(nameof(columns), "Every value of a least squares problem must be a finite number.");
        }

        var coefficients = new double[columns.Count];
        var squares = SolveInPlace(matrix, rows, y, coefficients);
        return new LinearSolution(coefficients, squares);
    }

    private static void CopyTo(IReadOnlyList<double> from, Span<double> to)
    {
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = from[i];
        }
    }

    /// <summary>Solves and destroys its inputs: columns one after the other in <paramref name="matrix"/>.</summary>
    /// <returns>The sum of squared residuals.</returns>
    internal static double SolveInPlace(Span<double> matrix, int rows, Span<double> y, Span<double> coefficients)
    {
        var count = coefficients.Length;
        Span<int> pivotRow = stackalloc int[count];
        var top = 0;
        for (var k = 0; k < count; k++)
        {
            var column = matrix.Slice(k * rows, rows);
            var below = Norm(column[top..]);
            var above = Norm(column[..top]);
            if (below <= DependentShare * Math.Sqrt((above * above) + (below * below)))
            {
                pivotRow[k] = -1;
                continue;
            }

            pivotRow[k] = top;
            Reflect(matrix, rows, y, k, top, below);
            top++;
        }

        BackSubstitute(matrix, rows, y, pivotRow, coefficients);
        var rest = y[top..rows];
        return Dot(rest, rest);
    }

    private static void Reflect(Span<double> matrix, int rows, Span<double> y, int k, int top, double norm)
    {
        var v = matrix.Slice((k * rows) + top, rows - top);
        var pivot = v[0] > 0.0 ? -norm : norm;
        v[0] -= pivot;
        var scale = -1.0 / (pivot * v[0]);
        for (var j = k + 1; j < matrix.Length / rows; j++)
        {
            Apply(v, scale, matrix.Slice((j * rows) + top, rows - top));
        }

        Apply(v, scale, y[top..rows]);
        v[0] = pivot;
    }

    private static void Apply(ReadOnlySpan<double> v, double scale, Span<double> target)
    {
        var share = -scale * Dot(v, target);
        var wide = MemoryMarshal.Cast<double, Vector<double>>(target);
        var wideV = MemoryMarshal.Cast<double, Vector<double>>(v);
        for (var i = 0; i < wide.Length; i++)
        {
            wide[i] += share * wideV[i];
        }

        for (var i = wide.Length * Vector<double>.Count; i < target.Length; i++)
        {
            target[i] += share * v[i];
        }
    }

    private static double Dot(ReadOnlySpan<double> left, ReadOnlySpan<double> right)
    {
        var wideLeft = MemoryMarshal.Cast<double, Vector<double>>(left);
        var wideRight = MemoryMarshal.Cast<double, Vector<double>>(right);
        var sums = Vector<double>.Zero;
        for (var i = 0; i < wideLeft.Length; i++)
        {
            sums += wideLeft[i] * wideRight[i];
        }

        var sum = Vector.Sum(sums);
        for (var i = wideLeft.Length * Vector<double>.Count; i < left.Length; i++)
        {
            sum += left[i] * right[i];
        }

        return sum;
    }

    private static double Norm(ReadOnlySpan<double> values) => Math.Sqrt(Dot(values, values));

    private static void BackSubstitute(
        ReadOnlySpan<double> matrix, int rows, ReadOnlySpan<double> y, ReadOnlySpan<int> pivotRow, Span<double> coefficients)
    {
        for (var k = coefficients.Length - 1; k >= 0; k--)
        {
            coefficients[k] = 0.0;
            if (pivotRow[k] < 0)
            {
                continue;
            }

            var sum = y[pivotRow[k]];
            for (var j = k + 1; j < coefficients.Length; j++)
            {
                sum -= matrix[(j * rows) + pivotRow[k]] * coefficients[j];
            }

            coefficients[k] = sum / matrix[(k * rows) + pivotRow[k]];
        }
    }
}

/// <summary>What linear least squares found.</summary>
/// <param name="Coefficients">One for each column.</param>
/// <param name="SumOfSquares">Of the residuals.</param>
public sealed record LinearSolution(IReadOnlyList<double> Coefficients, double SumOfSquares);
