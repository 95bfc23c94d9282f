using System.Globalization;

namespace ClimateGuard.Evidence;

/// <summary>Values given as decimal text, kept as small distances from their first value so that no digit of the text is lost.</summary>
/// <remarks>
/// 10000000.2 has no exact binary form; its distance from 10000000.1 does not survive a conversion to double, and a standard deviation
/// of such values keeps about eight digits however it is summed. The subtraction here is done in decimal, where it is exact.
/// Immutable; equality is that of the reference.
/// </remarks>
public sealed class DecimalSeries
{
    // Differences of such values still fit into a decimal.
    private const decimal Largest = 1e27m;

    private readonly double[] _distances;

    private DecimalSeries(decimal origin, double[] distances)
    {
        Origin = origin;
        _distances = distances;
    }

    /// <summary>The first value, exactly as written, in the unit of the values.</summary>
    public decimal Origin { get; }

    /// <summary>Each value minus the origin, in the unit of the values.</summary>
    public IReadOnlyList<double> Distances => _distances;

    /// <summary>Reads the values.</summary>
    /// <param name="texts">Decimal numbers with a point, an exponent allowed; up to 28 significant digits, one value or more.</param>
    /// <returns>The series.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="FormatException">A text is no decimal number; the message names it and its place.</exception>
    public static DecimalSeries Parse(IEnumerable<string> texts)
    {
        ArgumentNullException.ThrowIfNull(texts);
        var values = texts.Select(Number).ToArray();
        if (values.Length == 0) throw new ArgumentException("A series needs one value or more; none was given.", nameof(texts));
        return new DecimalSeries(values[0], [.. values.Select(value => (double)(value - values[0]))]);
    }

    /// <summary>Mean, standard deviation and lag-1 autocorrelation of the values.</summary>
    /// <returns>The moments, in the unit of the values.</returns>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    public SampleMoments Moments()
    {
        var moments = Univariate.Moments(_distances);
        // The sum is taken in decimal: a mean of 10000000.2 is written with all its digits.
        return moments with { Mean = (double)(Origin + (decimal)moments.Mean) };
    }

    private static decimal Number(string text, int place) =>
        decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && Math.Abs(value) <= Largest
            ? value
            : throw new FormatException(
                $"Value {place + 1}, '{text}', is no decimal number up to 1e27; allowed are digits with a point, such as 10000000.2.");
}
