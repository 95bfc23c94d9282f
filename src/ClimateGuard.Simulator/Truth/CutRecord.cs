namespace ClimateGuard.Simulator;

/// <summary>What was true when a finish cut began: the answer key for whoever judges the judge.</summary>
public sealed record CutRecord(DateTimeOffset Time, string Machine, string Serial, string Part, IReadOnlyList<FeatureTruth> Features);
