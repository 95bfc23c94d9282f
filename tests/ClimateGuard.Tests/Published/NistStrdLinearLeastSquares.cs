using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// NIST Statistical Reference Datasets, linear regression: Norris (lower difficulty) and Longley (higher). Data and certified values are
/// those of the NIST files; the tolerances are relative and stand beside each value.
/// </summary>
public sealed class NistStrdLinearLeastSquares
{
    private static readonly double[] NorrisY =
    [
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
        0.1, 778.1, 668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
        0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
    ];

    private static readonly double[] NorrisX =
    [
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
        0.6, 775.5, 666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
        0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ];

    private static readonly double[] LongleyY =
    [
        60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761,
        66019, 67857, 68169, 66513, 68655, 69564, 69331, 70551,
    ];

    private static readonly double[] LongleyDeflator =
    [
        83.0, 88.5, 88.2, 89.5, 96.2, 98.1, 99.0, 100.0,
        101.2, 104.6, 108.4, 110.8, 112.6, 114.2, 115.7, 116.9,
    ];

    private static readonly double[] LongleyProduct =
    [
        234289, 259426, 258054, 284599, 328975, 346999, 365385, 363112,
        397469, 419180, 442769, 444546, 482704, 502601, 518173, 554894,
    ];

    private static readonly double[] LongleyUnemployed =
    [
        2356, 2325, 3682, 3351, 2099, 1932, 1870, 3578,
        2904, 2822, 2936, 4681, 3813, 3931, 4806, 4007,
    ];

    private static readonly double[] LongleyArmedForces =
    [
        1590, 1456, 1616, 1650, 3099, 3594, 3547, 3350,
        3048, 2857, 2798, 2637, 2552, 2514, 2572, 2827,
    ];

    private static readonly double[] LongleyPopulation =
    [
        107608, 108632, 109773, 110929, 112075, 113270, 115094, 116219,
        117388, 118734, 120445, 121950, 123366, 125368, 127852, 130081,
    ];

    private static readonly double[] LongleyYear =
    [
        1947, 1948, 1949, 1950, 1951, 1952, 1953, 1954,
        1955, 1956, 1957, 1958, 1959, 1960, 1961, 1962,
    ];

    [Theory]
    [InlineData(0, -0.262323073774029, 1e-11)]
    [InlineData(1, 1.00211681802045, 1e-12)]
    public void Norris_coefficients(int coefficient, double certified, double relativeTolerance)
    {
        var solution = LinearLeastSquares.Solve([Ones(36), NorrisX], NorrisY);
        AssertRelative(certified, solution.Coefficients[coefficient], relativeTolerance);
    }

    [Fact]
    public void Norris_sum_of_squared_residuals() =>
        AssertRelative(26.6173985294224, LinearLeastSquares.Solve([Ones(36), NorrisX], NorrisY).SumOfSquares, 1e-11);

    [Theory]
    [InlineData(0, -3482258.63459582, 1e-7)]
    [InlineData(1, 15.0618722713733, 1e-7)]
    [InlineData(2, -0.0358191792925910, 1e-7)]
    [InlineData(3, -2.02022980381683, 1e-7)]
    [InlineData(4, -1.03322686717359, 1e-7)]
    [InlineData(5, -0.0511041056535807, 1e-7)]
    [InlineData(6, 1829.15146461355, 1e-7)]
    public void Longley_coefficients(int coefficient, double certified, double relativeTolerance) =>
        AssertRelative(certified, Longley().Coefficients[coefficient], relativeTolerance);

    [Fact]
    public void Longley_residual_standard_deviation() =>
        AssertRelative(304.854073561965, Math.Sqrt(Longley().SumOfSquares / (16 - 7)), 1e-10);

    private static LinearSolution Longley() => LinearLeastSquares.Solve(
        [Ones(16), LongleyDeflator, LongleyProduct, LongleyUnemployed, LongleyArmedForces, LongleyPopulation, LongleyYear], LongleyY);

    private static double[] Ones(int count) => [.. Enumerable.Repeat(1.0, count)];

    private static void AssertRelative(double expected, double actual, double tolerance) =>
        Assert.InRange(actual, expected - (Math.Abs(expected) * tolerance), expected + (Math.Abs(expected) * tolerance));
}
