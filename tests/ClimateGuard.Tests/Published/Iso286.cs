using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>ISO 286-1, table 1: standard tolerances (seen in five independent tables to 500 mm; above from memory).</summary>
public sealed class Iso286
{
    [Theory]
    [InlineData(30.001, 11, 16, 25, 39, 62)]
    [InlineData(50, 11, 16, 25, 39, 62)]
    [InlineData(80, 13, 19, 30, 46, 74)]
    [InlineData(80.001, 15, 22, 35, 54, 87)]
    [InlineData(180, 18, 25, 40, 63, 100)]
    [InlineData(250, 20, 29, 46, 72, 115)]
    [InlineData(315, 23, 32, 52, 81, 130)]
    [InlineData(400, 25, 36, 57, 89, 140)]
    [InlineData(500, 27, 40, 63, 97, 155)]
    [InlineData(630, 32, 44, 70, 110, 175)]
    [InlineData(800, 36, 50, 80, 125, 200)]
    [InlineData(1000, 40, 56, 90, 140, 230)]
    [InlineData(1250, 47, 66, 105, 165, 260)]
    public void The_table_is_met(double size, int it5, int it6, int it7, int it8, int it9) =>
        Assert.Equal([it5, it6, it7, it8, it9], Enumerable.Range(5, 5).Select(grade => StandardTolerance.MicrometresOf(size, grade)));

    [Theory]
    [InlineData(30, 50)]
    [InlineData(80, 120)]
    [InlineData(400, 500)]
    [InlineData(500, 630)]
    [InlineData(1000, 1250)]
    public void The_generating_formula_agrees_within_6_percent(double over, double upTo)
    {
        // ISO 286-1: i = 0.45·∛D + 0.001·D to 500 mm, I = 0.004·D + 2.1 above; IT5 to IT9 = 7, 10, 16, 25, 40 units (from memory)
        var d = Math.Sqrt(over * upTo);
        var unit = upTo <= 500 ? (0.45 * Math.Cbrt(d)) + (0.001 * d) : (0.004 * d) + 2.1;
        int[] factors = [7, 10, 16, 25, 40];
        for (var grade = 5; grade <= 9; grade++)
            Within.Relative(factors[grade - 5] * unit, StandardTolerance.MicrometresOf(upTo, grade), 0.06, $"IT{grade}");
    }

    [Theory]
    [InlineData(30, 6)]
    [InlineData(1250.1, 6)]
    [InlineData(100, 4)]
    [InlineData(100, 10)]
    public void What_the_table_does_not_hold_is_refused(double size, int grade) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardTolerance.MicrometresOf(size, grade));
}
