using System.Runtime.CompilerServices;

namespace ClimateGuard.Thermal;

/// <summary>The checks at the door of every formula: one number, its bounds, its unit, and a sentence that says all three.</summary>
internal static class FormulaInput
{
    /// <summary>The value, when it lies in the closed interval; NaN never does.</summary>
    public static double InRange(
        double value, double low, double high, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value >= low && value <= high) return value;
        throw new ArgumentOutOfRangeException(
            name, value, FormattableString.Invariant($"{name} must lie in [{low}, {high}] {unit}").TrimEnd() + ".");
    }

    /// <summary>The value, when it is above zero and finite.</summary>
    public static double Positive(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value > 0 && double.IsFinite(value)) return value;
        throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number above 0 {unit}".TrimEnd() + ".");
    }

    /// <summary>The value, when it is zero or more and finite.</summary>
    public static double NotNegative(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value >= 0 && double.IsFinite(value)) return value;
        throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number of 0 {unit}".TrimEnd() + " or more.");
    }

    /// <summary>The value, when it is finite.</summary>
    public static double Finite(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (double.IsFinite(value)) return value;
        throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number {unit}".TrimEnd() + ".");
    }
}
