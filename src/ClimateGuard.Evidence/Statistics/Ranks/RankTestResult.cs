namespace ClimateGuard.Evidence;

/// <summary>What a rank test found; equality is by value.</summary>
/// <param name="Statistic">W of Mann–Whitney (rank sum of the first sample less its smallest) or V of the signed ranks.</param>
/// <param name="PValue">In [0, 1], for the alternative asked.</param>
/// <param name="Exact">True when every arrangement was counted; false for the normal approximation.</param>
public sealed record RankTestResult(double Statistic, double PValue, bool Exact);
