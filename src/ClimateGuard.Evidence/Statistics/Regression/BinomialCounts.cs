namespace ClimateGuard.Evidence;

/// <summary>Counts of yes out of trials, with the pieces of their likelihood written so that small probabilities keep their digits.</summary>
internal sealed class BinomialCounts(IReadOnlyList<int> successes, IReadOnlyList<int> trials)
{
    public double OverallShare { get; } = (double)successes.Sum(s => (long)s) / trials.Sum(t => (long)t);

    public static double Probability(double predictor) =>
        predictor >= 0 ? 1 / (1 + Math.Exp(-predictor)) : Math.Exp(predictor) / (1 + Math.Exp(predictor));

    public double[] RootWeights(double[] predictor) =>
        [.. predictor.Select((eta, i) => Math.Sqrt(trials[i] * Probability(eta) * Probability(-eta)))];

    public double[] Target(double[] predictor, double[] roots) =>
    [
        .. predictor.Select((eta, i) =>
            roots[i] > 0 ? ((successes[i] * Probability(-eta)) - ((trials[i] - successes[i]) * Probability(eta))) / roots[i] : 0),
    ];

    /// <summary>2·Σ[y·ln(y/μ) + (n − y)·ln((n − y)/(n − μ))].</summary>
    public double Deviance(double[] predictor)
    {
        var sum = default(ExactSum);
        for (var i = 0; i < predictor.Length; i++)
        {
            double yes = successes[i], no = trials[i] - successes[i];
            if (yes > 0) sum.Add(yes * (Math.Log(yes / trials[i]) + LogOnePlusExp(-predictor[i])));
            if (no > 0) sum.Add(no * (Math.Log(no / trials[i]) + LogOnePlusExp(predictor[i])));
        }

        return Math.Max(0, 2 * sum.Value);
    }

    /// <summary>The log likelihood without its binomial coefficients, as the single trials would have it.</summary>
    public double LogLikelihood(double[] predictor)
    {
        var sum = default(ExactSum);
        for (var i = 0; i < predictor.Length; i++)
        {
            sum.Add(-successes[i] * LogOnePlusExp(-predictor[i]));
            sum.Add(-(trials[i] - successes[i]) * LogOnePlusExp(predictor[i]));
        }

        return sum.Value;
    }

    // ln(1 + eˣ) without overflow above and without loss below.
    private static double LogOnePlusExp(double x) => x > 0 ? x + double.LogP1(Math.Exp(-x)) : double.LogP1(Math.Exp(x));
}
