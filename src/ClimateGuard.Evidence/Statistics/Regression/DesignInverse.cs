using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>(XᵀX)⁻¹ of the columns of a least squares problem, without ever forming XᵀX.</summary>
/// <remarks>
/// Column j regressed on the others leaves the sum of squares RSSⱼ and the coefficients γ; then (XᵀX)⁻¹ⱼⱼ = 1/RSSⱼ and
/// (XᵀX)⁻¹ⱼₖ = −γₖ/RSSⱼ (the inverse of a partitioned matrix). Each regression is a Householder solution, so the condition of X counts
/// once and not squared.
/// </remarks>
internal static class DesignInverse
{
    // A column whose part not explained by the others is this small beside it carries rounding, not information.
    private const double DependentShare = 1e-20;

    public static double[][] Of(IReadOnlyList<double[]> columns, string name)
    {
        var inverse = new double[columns.Count][];
        for (var j = 0; j < columns.Count; j++)
        {
            inverse[j] = new double[columns.Count];
            double[][] others = [.. columns.Where((_, k) => k != j)];
            var own = SumOfSquares(columns[j]);
            var (coefficients, rest) = others.Length == 0 ? ([], own) : Solve(others, columns[j]);
            if (!(rest > DependentShare * own))
                throw new ArgumentException($"{name}[{j}] does not vary or is a combination of the others, so its effect cannot be told apart.", name);
            inverse[j][j] = 1 / rest;
            for (int k = 0, at = 0; k < columns.Count; k++)
            {
                if (k != j) inverse[j][k] = -coefficients[at++] / rest;
            }
        }

        Symmetrise(inverse);
        return inverse;
    }

    private static (IReadOnlyList<double> Coefficients, double LeftOver) Solve(double[][] others, double[] column)
    {
        var solution = LinearLeastSquares.Solve(others, column);
        return (solution.Coefficients, solution.SumOfSquares);
    }

    private static double SumOfSquares(double[] column)
    {
        var sum = default(ExactSum);
        foreach (var value in column) sum.AddProduct(value, value);
        return sum.Value;
    }

    private static void Symmetrise(double[][] matrix)
    {
        for (var j = 0; j < matrix.Length; j++)
        {
            for (var k = 0; k < j; k++) matrix[j][k] = matrix[k][j] = (matrix[j][k] + matrix[k][j]) / 2;
        }
    }
}
