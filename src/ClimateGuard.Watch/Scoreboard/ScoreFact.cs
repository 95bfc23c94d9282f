using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What a line of the ledger says to the scoreboard. A closed set.</summary>
/// <param name="Time">When it happened.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Shadow">It was kept by a shadow: no machine was told.</param>
public abstract record ScoreFact(DateTimeOffset Time, string Machine, bool Shadow);

/// <summary>The outlook of a machine changed.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Shadow">Kept by a shadow.</param>
/// <param name="Work">What is loaded.</param>
/// <param name="Level">The level, as its word.</param>
/// <param name="Prediction">What the deciding feature was predicted to do, or null when that was not known.</param>
public sealed record LevelSaid(
    DateTimeOffset Time, string Machine, bool Shadow, WorkOnMachine Work, string Level, FrozenPrediction? Prediction) : ScoreFact(Time, Machine, Shadow)
{
    /// <summary>What each feature was predicted to do; only the deciding one in lines of older workers.</summary>
    public IReadOnlyList<FrozenPrediction> Features { get; init; } = [];
}

/// <summary>A control was answered.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Shadow">Kept by a shadow: the control was not told.</param>
/// <param name="Work">What was asked for.</param>
/// <param name="Answer">The answer, as its word.</param>
/// <param name="Prediction">The prediction behind it, or null.</param>
public sealed record AnswerSaid(
    DateTimeOffset Time, string Machine, bool Shadow, WorkOnMachine Work, string Answer, FrozenPrediction? Prediction) : ScoreFact(Time, Machine, Shadow)
{
    /// <summary>The sender's id of the request, or empty.</summary>
    public string RequestId { get; init; } = "";

    /// <summary>What each feature was predicted to do; only the deciding one in lines of older workers.</summary>
    public IReadOnlyList<FrozenPrediction> Features { get; init; } = [];
}

/// <summary>A measurement judged a hold.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Shadow">Kept by a shadow.</param>
/// <param name="Score">What it said.</param>
public sealed record HoldJudged(DateTimeOffset Time, string Machine, bool Shadow, HoldScore Score) : ScoreFact(Time, Machine, Shadow);

/// <summary>A finish cut began.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Shadow">Kept by a shadow.</param>
/// <param name="Work">What was cut.</param>
public sealed record CutBegan(DateTimeOffset Time, string Machine, bool Shadow, WorkOnMachine Work) : ScoreFact(Time, Machine, Shadow);

/// <summary>An inspected value came in.</summary>
/// <param name="Time">When it came in.</param>
/// <param name="Machine">Id of the machine it was cut on.</param>
/// <param name="Shadow">Kept by a shadow.</param>
/// <param name="Value">The value.</param>
public sealed record ValueInspected(DateTimeOffset Time, string Machine, bool Shadow, InspectionValue Value) : ScoreFact(Time, Machine, Shadow);

/// <summary>The work on a machine; equality is by value.</summary>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Serial">Serial number, or empty when nothing is loaded.</param>
/// <param name="Operation">Operation.</param>
public readonly record struct WorkOnMachine(string Machine, string Serial, string Operation);

/// <summary>What was predicted of one feature, as it was kept then; nothing computed later replaces it.</summary>
/// <param name="Feature">Id of the feature.</param>
/// <param name="EffectMicrometres">The largest effect expected during the cut, in µm, with its sign.</param>
/// <param name="BudgetMicrometres">Budget, in µm.</param>
/// <param name="Probability">Probability that the effect leaves the budget during the cut, in [0, 1].</param>
public sealed record FrozenPrediction(string Feature, double EffectMicrometres, double BudgetMicrometres, double Probability);
