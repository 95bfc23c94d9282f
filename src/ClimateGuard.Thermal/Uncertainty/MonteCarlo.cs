namespace ClimateGuard.Thermal;

/// <summary>A model of a measurement: one draw of each input in, one result out.</summary>
/// <param name="inputs">One value per input, in the order of the distributions.</param>
/// <returns>The result; it must be finite.</returns>
public delegate double MeasurementModel(ReadOnlySpan<double> inputs);

/// <summary>Propagation of distributions by Monte Carlo (JCGM 101): the second way to the same number.</summary>
/// <remarks>
/// It sees what first order does not: products of inputs whose estimate is 0, and the shape of the result. The same seed gives the
/// same result on every machine as long as the model keeps to +, −, ×, ÷ and √.
/// </remarks>
public static class MonteCarlo
{
    /// <summary>The fewest trials.</summary>
    public const int FewestTrials = 100;

    /// <summary>The most trials; they are kept in memory, 8 bytes each.</summary>
    public const int MostTrials = 100_000_000;

    private const int Block = 1024;

    /// <summary>Draws the inputs, runs the model on each draw, keeps the results.</summary>
    /// <remarks>JCGM 101, 7.2.2 recommends at least 10⁴/(1 − p) trials for a coverage probability p: 200 000 for 95 %.</remarks>
    /// <param name="inputs">The independent inputs, one or more.</param>
    /// <param name="model">The model.</param>
    /// <param name="trials">How many draws, in [100, 100 000 000].</param>
    /// <param name="seed">Any number; it fixes every draw.</param>
    /// <returns>The distribution of the result.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no input, or the number of trials lies outside its range.</exception>
    /// <exception cref="ArgumentException">The model gave a result that is not a finite number.</exception>
    public static MonteCarloResult Propagate(IReadOnlyList<InputDistribution> inputs, MeasurementModel model, int trials, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        ArgumentNullException.ThrowIfNull(model);
        FormulaInput.InRange(inputs.Count, 1, int.MaxValue, "inputs", "number of inputs");
        FormulaInput.InRange(trials, FewestTrials, MostTrials, "trials");
        var sources = new DrawSource[inputs.Count];
        var columns = new double[inputs.Count][];
        for (var i = 0; i < sources.Length; i++)
        {
            sources[i] = new(SplitMix64.Child(seed, i));
            columns[i] = new double[Block];
        }

        var results = new double[trials];
        var row = new double[inputs.Count];
        for (var start = 0; start < trials; start += Block)
        {
            var size = Math.Min(Block, trials - start);
            for (var i = 0; i < columns.Length; i++) inputs[i].Fill(columns[i].AsSpan(0, size), sources[i]);
            for (var trial = 0; trial < size; trial++)
            {
                for (var i = 0; i < row.Length; i++) row[i] = columns[i][trial];
                results[start + trial] = Checked(model(row), start + trial);
            }
        }

        return new(results);
    }

    private static double Checked(double result, int trial) => double.IsFinite(result)
        ? result
        : throw new ArgumentException(FormattableString.Invariant($"The model gave {result} at trial {trial}; it must be a finite number."), nameof(result));
}
