using System.Runtime.CompilerServices;

namespace ClimateGuard.Evidence;

/// <summary>The checks at the door of every statistic: how many values, of which kind, in a sentence a person can act on.</summary>
internal static class EvidenceInput
{
    /// <summary>Finite values, and at least so many of them.</summary>
    public static void Sample(
        IReadOnlyList<double> values, int atLeast, [CallerArgumentExpression(nameof(values))] string name = "")
    {
        ArgumentNullException.ThrowIfNull(values, name);
        if (values.Count < atLeast)
            throw new ArgumentException($"{name} needs {atLeast} values or more; it holds {values.Count}.", name);
        for (var i = 0; i < values.Count; i++)
        {
            if (!double.IsFinite(values[i]))
                throw new ArgumentOutOfRangeException(name, values[i], FormattableString.Invariant($"{name}[{i}] must be a finite number."));
        }
    }

    /// <summary>Two lists that belong together value by value.</summary>
    public static void SameLength(int first, int second, string firstName, string secondName)
    {
        if (first == second) return;
        throw new ArgumentException(
            $"{firstName} and {secondName} belong together value by value; they hold {first} and {second}.", secondName);
    }

    /// <summary>A probability strictly between 0 and 1.</summary>
    public static double Share(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value is > 0 and < 1) return value;
        throw new ArgumentOutOfRangeException(name, value, $"{name} must lie between 0 and 1, both excluded.");
    }

    /// <summary>A finite number above zero.</summary>
    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value > 0 && double.IsFinite(value)) return value;
        throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number above 0.");
    }

    /// <summary>A finite number of zero or more.</summary>
    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value >= 0 && double.IsFinite(value)) return value;
        throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number of 0 or more.");
    }

    /// <summary>A finite number.</summary>
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (double.IsFinite(value)) return value;
        throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number.");
    }

    /// <summary>A count within its bounds.</summary>
    public static int Count(int value, int low, int high, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value >= low && value <= high) return value;
        throw new ArgumentOutOfRangeException(name, value, $"{name} must lie in [{low}, {high}].");
    }
}
