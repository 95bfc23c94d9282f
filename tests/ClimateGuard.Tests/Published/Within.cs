namespace ClimateGuard.Tests.Published;

/// <summary>Compares with the tolerance of the row: absolute in the unit of the value, or relative.</summary>
internal static class Within
{
    public static void Absolute(double expected, double actual, double tolerance, string what = "") => Assert.True(
        Math.Abs(expected - actual) <= tolerance,
        FormattableString.Invariant($"{what} expected {expected:G17} within {tolerance:G3}, got {actual:G17}, off by {Math.Abs(expected - actual):G3}"));

    public static void Relative(double expected, double actual, double tolerance, string what = "") =>
        Absolute(expected, actual, Math.Abs(expected) * tolerance, what);
}
