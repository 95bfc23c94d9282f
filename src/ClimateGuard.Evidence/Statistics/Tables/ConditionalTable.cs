using MathNet.Numerics;

namespace ClimateGuard.Evidence;

/// <summary>The distribution of the exposed and bad count when the margins are fixed (non-central hypergeometric).</summary>
internal sealed class ConditionalTable
{
    private readonly double[] _logWeights;

    public ConditionalTable(TwoByTwo table)
    {
        Low = Math.Max(0, table.Bad - table.Other);
        High = Math.Min(table.Exposed, table.Bad);
        _logWeights = new double[High - Low + 1];
        for (var a = Low; a <= High; a++)
            _logWeights[a - Low] = LogChoose(table.Exposed, a) + LogChoose(table.Other, table.Bad - a);
    }

    public int Low { get; }

    public int High { get; }

    /// <summary>P(a) for a from Low to High at a log odds ratio.</summary>
    public double[] Shares(double logOdds)
    {
        double[] logs = [.. _logWeights.Select((weight, i) => weight + (i * logOdds))];
        var largest = logs.Max();
        double[] shares = [.. logs.Select(log => Math.Exp(log - largest))];
        var total = shares.Sum();
        return [.. shares.Select(share => share / total)];
    }

    public double AtLeast(int a, double logOdds) => Shares(logOdds).Skip(a - Low).Sum();

    public double AtMost(int a, double logOdds) => Shares(logOdds).Take(a - Low + 1).Sum();

    public double Mean(double logOdds) => Shares(logOdds).Select((share, i) => share * (Low + i)).Sum();

    // Small factorials are exact products; their logarithms keep two digits more than the series of the gamma function.
    private static double LogChoose(int n, int k) =>
        n <= 60 ? Math.Log(Combinatorics.Combinations(n, k)) : SpecialFunctions.FactorialLn(n) - SpecialFunctions.FactorialLn(k) - SpecialFunctions.FactorialLn(n - k);
}
