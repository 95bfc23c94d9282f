namespace ClimateGuard.Thermal;

/// <summary>The distribution of a result, as the sorted outcomes of its trials.</summary>
/// <remarks>Equality is by reference. Immutable, so safe across threads.</remarks>
public sealed class MonteCarloResult
{
    private readonly double[] _sorted;

    internal MonteCarloResult(double[] outcomes)
    {
        Array.Sort(outcomes);
        _sorted = outcomes;
        // About the median, so that 50 mm known to nanometres keep their digits.
        var origin = outcomes[outcomes.Length / 2];
        double sum = 0, squares = 0;
        foreach (var outcome in outcomes) sum += outcome - origin;
        var shift = sum / outcomes.Length;
        foreach (var outcome in outcomes) squares += (outcome - origin - shift) * (outcome - origin - shift);
        Mean = origin + shift;
        StandardDeviation = Math.Sqrt(squares / (outcomes.Length - 1));
    }

    /// <summary>How many trials there were.</summary>
    public int Trials => _sorted.Length;

    /// <summary>The estimate (JCGM 101, 7.6).</summary>
    public double Mean { get; }

    /// <summary>The standard uncertainty (JCGM 101, 7.6).</summary>
    public double StandardDeviation { get; }

    /// <summary>The interval with the same share outside on either side (JCGM 101, 7.7).</summary>
    /// <param name="probability">The share inside, in (0, 1).</param>
    /// <returns>The interval.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The probability lies outside (0, 1).</exception>
    public CoverageInterval Symmetric(double probability)
    {
        var inside = Inside(probability);
        // r = (M − q)/2, or half up; the ranks of JCGM 101 begin at 1.
        var first = Math.Max(0, ((Trials - inside + 1) / 2) - 1);
        return new(_sorted[first], _sorted[Math.Min(Trials - 1, first + inside)], probability);
    }

    /// <summary>The shortest interval that holds the share (JCGM 101, 7.7.4 note and 5.3.4).</summary>
    /// <param name="probability">The share inside, in (0, 1).</param>
    /// <returns>The interval.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The probability lies outside (0, 1).</exception>
    public CoverageInterval Shortest(double probability)
    {
        var inside = Inside(probability);
        var best = 0;
        for (var first = 1; first + inside < Trials; first++)
        {
            if (_sorted[first + inside] - _sorted[first] < _sorted[best + inside] - _sorted[best]) best = first;
        }

        return new(_sorted[best], _sorted[best + inside], probability);
    }

    /// <summary>The share of trials above a value.</summary>
    /// <param name="value">Any finite number.</param>
    /// <returns>The share, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is not a finite number.</exception>
    public double ShareAbove(double value)
    {
        FormulaInput.Finite(value, "");
        int low = 0, high = Trials;
        while (low < high)
        {
            var middle = low + ((high - low) / 2);
            if (_sorted[middle] > value) high = middle;
            else low = middle + 1;
        }

        return (double)(Trials - low) / Trials;
    }

    private int Inside(double probability)
    {
        StandardNormal.CheckProbability(probability, nameof(probability));
        return Math.Clamp((int)Math.Floor((probability * Trials) + 0.5), 1, Trials - 1);
    }
}

/// <summary>An interval that holds a share of the values that could be true.</summary>
/// <param name="Low">Its lower end.</param>
/// <param name="High">Its upper end.</param>
/// <param name="Probability">The share inside.</param>
public readonly record struct CoverageInterval(double Low, double High, double Probability)
{
    /// <summary>High − low.</summary>
    public double Length => High - Low;
}
