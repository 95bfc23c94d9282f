using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Logistic regression of a yes or no, or of a count out of trials, on one list or several, with intercept.</summary>
/// <remarks>
/// Newton's rule as iterated weighted least squares (McCullagh and Nelder, Generalized Linear Models, 1989, from memory), each step a
/// Householder solution on centred and scaled columns. Where a combination of the columns splits yes from no, no finite answer exists;
/// that is a named outcome and not a large number.
/// </remarks>
public static class LogisticRegression
{
    // Separated data move the linear predictor by about 1 a round for ever; a fit that exists settles in far fewer rounds than this.
    private const int MostRounds = 35;

    // Newton's rule squares its error: what is left after such a step is of the last digit.
    private const double SettledStep = 1e-8;

    /// <summary>The regression of yes or no.</summary>
    /// <param name="columns">One list or more of what explains, each as long as the outcomes.</param>
    /// <param name="outcomes">Yes or no; more than coefficients.</param>
    /// <returns>The fit, or that the data separate and no fit exists.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, are too short, or a column does not vary or depends on the others.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static LogisticFit Fit(IReadOnlyList<IReadOnlyList<double>> columns, IReadOnlyList<bool> outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        return Fit(columns, [.. outcomes.Select(yes => yes ? 1 : 0)], [.. outcomes.Select(_ => 1)]);
    }

    /// <summary>The regression of counts out of trials.</summary>
    /// <param name="columns">One list or more of what explains, each as long as the counts.</param>
    /// <param name="successes">How often yes, in [0, trials].</param>
    /// <param name="trials">Out of how many, one or more each.</param>
    /// <returns>The fit, or that the data separate and no fit exists.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, are too short, or a column does not vary or depends on the others.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static LogisticFit Fit(IReadOnlyList<IReadOnlyList<double>> columns, IReadOnlyList<int> successes, IReadOnlyList<int> trials)
    {
        Check(columns, successes, trials);
        var design = CentredDesign.Of(columns);
        var data = new BinomialCounts(successes, trials);
        if (data.OverallShare is 0 or 1) return LogisticFit.None(LogisticOutcome.OneOutcomeOnly, 0);

        var beta = new double[columns.Count + 1];
        beta[0] = Math.Log(data.OverallShare / (1 - data.OverallShare));
        var nullDeviance = data.Deviance(design.Predict(beta));
        var deviance = nullDeviance;
        for (var round = 1; round <= MostRounds; round++)
        {
            var step = Step(design, data, beta);
            (beta, deviance) = Damped(design, data, beta, step, deviance);
            if (design.Predict(step).Max(Math.Abs) < SettledStep) return new LogisticFit(design, beta, data, nullDeviance, deviance);
        }

        return LogisticFit.None(LogisticOutcome.Separated, nullDeviance);
    }

    private static double[] Step(CentredDesign design, BinomialCounts data, double[] beta)
    {
        var predictor = design.Predict(beta);
        var roots = data.RootWeights(predictor);
        var target = data.Target(predictor, roots);
        return [.. LinearLeastSquares.Solve(design.Weighted(roots), target).Coefficients];
    }

    private static (double[] Beta, double Deviance) Damped(
        CentredDesign design, BinomialCounts data, double[] beta, double[] step, double deviance)
    {
        // Newton's full step can overshoot far from the answer; halving it restores the descent that convexity promises.
        for (var fraction = 1.0; ; fraction /= 2)
        {
            double[] next = [.. beta.Select((b, j) => b + (fraction * step[j]))];
            var reached = data.Deviance(design.Predict(next));
            if (reached <= deviance + (1e-12 * (1 + deviance)) || fraction < 1e-6) return (next, reached);
        }
    }

    private static void Check(IReadOnlyList<IReadOnlyList<double>> columns, IReadOnlyList<int> successes, IReadOnlyList<int> trials)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(successes);
        ArgumentNullException.ThrowIfNull(trials);
        EvidenceInput.SameLength(successes.Count, trials.Count, nameof(successes), nameof(trials));
        if (columns.Count == 0 || successes.Count < columns.Count + 2)
            throw new ArgumentException(
                $"Needed: one column or more and {columns.Count + 2} outcomes or more; given: {columns.Count} and {successes.Count}.", nameof(columns));
        foreach (var column in columns)
        {
            EvidenceInput.Sample(column, 0, nameof(columns));
            EvidenceInput.SameLength(column.Count, successes.Count, nameof(columns), nameof(successes));
        }

        for (var i = 0; i < trials.Count; i++)
        {
            EvidenceInput.Count(trials[i], 1, int.MaxValue, $"trials[{i}]");
            EvidenceInput.Count(successes[i], 0, trials[i], $"successes[{i}]");
        }
    }
}
