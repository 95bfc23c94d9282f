namespace ClimateGuard.Evidence;

/// <summary>One-way analysis of variance, and the variance components between and within episodes.</summary>
public static class AnalysisOfVariance
{
    /// <summary>The table of sums of squares between and within groups.</summary>
    /// <remarks>NIST/SEMATECH e-Handbook 7.4.3. Values are taken from their common mean first, so values far from zero lose no digits.</remarks>
    /// <param name="groups">Two groups or more, each with one value or more, more values than groups.</param>
    /// <returns>The table.</returns>
    /// <exception cref="ArgumentException">There are too few groups or values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static VarianceTable OneWay(IReadOnlyList<IReadOnlyList<double>> groups)
    {
        ArgumentNullException.ThrowIfNull(groups);
        if (groups.Count < 2) throw new ArgumentException($"Two groups or more are compared; given: {groups.Count}.", nameof(groups));
        foreach (var group in groups) EvidenceInput.Sample(group, 1, nameof(groups));
        double[] all = [.. groups.SelectMany(group => group)];
        if (all.Length <= groups.Count)
            throw new ArgumentException("A spread within groups needs more values than groups.", nameof(groups));
        var grand = Univariate.CentralMean(all);
        ExactSum between = default, within = default, squaredSizes = default;
        foreach (var group in groups)
        {
            double[] distances = [.. group.Select(value => value - grand)];
            var mean = Univariate.CentralMean(distances);
            between.Add(group.Count * mean * mean);
            within.Add(Univariate.SumOfSquares(distances, mean));
            squaredSizes.Add((double)group.Count * group.Count);
        }

        var typical = (all.Length - (squaredSizes.Value / all.Length)) / (groups.Count - 1);
        return new VarianceTable(between.Value, groups.Count - 1, within.Value, all.Length - groups.Count, typical);
    }
}

/// <summary>A one-way analysis of variance; equality is by value.</summary>
/// <param name="BetweenSumOfSquares">Of the group means about the common mean, weighted by group size.</param>
/// <param name="BetweenDegreesOfFreedom">Groups less one.</param>
/// <param name="WithinSumOfSquares">Of the values about their group means.</param>
/// <param name="WithinDegreesOfFreedom">Values less groups.</param>
/// <param name="TypicalGroupSize">The group size that makes the mean squares comparable: that of all groups where they are equal.</param>
public sealed record VarianceTable(
    double BetweenSumOfSquares, int BetweenDegreesOfFreedom, double WithinSumOfSquares, int WithinDegreesOfFreedom, double TypicalGroupSize)
{
    /// <summary>Mean square between groups.</summary>
    public double BetweenMeanSquare => BetweenSumOfSquares / BetweenDegreesOfFreedom;

    /// <summary>Mean square within groups.</summary>
    public double WithinMeanSquare => WithinSumOfSquares / WithinDegreesOfFreedom;

    /// <summary>Mean square between over within; infinite where groups differ without any spread inside, 0 where nothing differs.</summary>
    public double F => BetweenSumOfSquares == 0 ? 0 : BetweenMeanSquare / WithinMeanSquare;

    /// <summary>P(F as large without any difference between groups), in [0, 1].</summary>
    public double PValue => Tail.FisherSnedecor(F, BetweenDegreesOfFreedom, WithinDegreesOfFreedom);

    /// <summary>The share of the sum of squares between groups, in [0, 1]; 0 where nothing differs.</summary>
    public double RSquared => BetweenSumOfSquares == 0 ? 0 : BetweenSumOfSquares / (BetweenSumOfSquares + WithinSumOfSquares);

    /// <summary>Standard deviation within groups.</summary>
    public double WithinStandardDeviation => Math.Sqrt(WithinMeanSquare);

    /// <summary>Variance between episodes beyond what the spread within them makes: max(0, (MSb − MSw)/n₀).</summary>
    public double BetweenVariance => Math.Max(0, (BetweenMeanSquare - WithinMeanSquare) / TypicalGroupSize);

    /// <summary>ρ: the share of the total variance that lies between episodes, in [0, 1]; 0 where nothing differs.</summary>
    public double IntraclassCorrelation =>
        BetweenVariance == 0 ? 0 : BetweenVariance / (BetweenVariance + WithinMeanSquare);
}
