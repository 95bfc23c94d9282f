using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What the inspection says about what was cut without a hold.</summary>
public sealed record InspectionTally
{
    /// <summary>Features of parts of which values came in.</summary>
    public required int Features { get; init; }

    /// <summary>Inspected features whose thermal part was above the budget though the work was never held.</summary>
    public required IReadOnlyList<Miss> Misses { get; init; }

    /// <summary>Deviations above the budget, without a hold, of which nobody can say how much is thermal.</summary>
    public required int NotKnown { get; init; }

    /// <summary>What the missed parts that are out of tolerance may have cost: from nothing, as some can be reworked, to a part each; null without rates.</summary>
    public required MoneyRange? Cost { get; init; }

    internal IReadOnlyList<OutcomeCase> Cases { get; private init; } = [];

    internal static InspectionTally Of(HoldHistory history, Cell cell, DateTimeOffset from, DateTimeOffset to)
    {
        var (misses, cases, features, unknown) = (new List<Miss>(), new List<OutcomeCase>(), 0, 0);
        var inTime = history.Inspected.Where(fact => CutAt(history, fact) is var at && at >= from && at < to).Select(fact => fact.Value);
        foreach (var group in inTime.GroupBy(value => (Work: new WorkOnMachine(value.Machine, value.Serial, value.Operation), value.Feature.Id)))
        {
            features++;
            InspectionValue[] values = [.. group];
            if (history.WasHeld(group.Key.Work))
            {
                continue;
            }

            var feature = values[^1].Feature;
            var budget = feature.Budget.MicrometresFor(feature.ToleranceMillimetres);
            var predicted = history.Cuts.GetValueOrDefault(group.Key.Work)?.Predicted ?? [];
            var part = ThermalPart.Of(feature, values, predicted);
            unknown += part is null && values.Any(value => Math.Abs(value.DeviationMicrometres) > budget) ? 1 : 0;
            if (part is not { } thermal)
            {
                continue;
            }

            if (Math.Abs(thermal.Micrometres) > budget)
            {
                misses.Add(new Miss(group.Key.Work, feature.Id, thermal, budget, values.All(value => value.InTolerance)));
            }

            cases.AddRange(OutcomeCase.Of(thermal, budget, predicted.FirstOrDefault(known => known.Feature == feature.Id)));
        }

        return new InspectionTally { Features = features, Misses = misses, NotKnown = unknown, Cases = cases, Cost = CostOf(misses, cell) };
    }

    private static DateTimeOffset CutAt(HoldHistory history, ValueInspected fact) =>
        history.Cuts.GetValueOrDefault(new WorkOnMachine(fact.Machine, fact.Value.Serial, fact.Value.Operation))?.Begin ?? fact.Time;

    private static MoneyRange? CostOf(List<Miss> misses, Cell cell) => cell.Description.Policies.Rates is { } rates
        ? new MoneyRange(0, misses.Where(miss => !miss.InTolerance).Select(miss => miss.Work.Serial).Distinct().Count() * rates.ScrapPerPart, rates.Currency)
        : null;
}

/// <summary>A thermal part above its budget that nothing held.</summary>
/// <param name="Work">What was cut.</param>
/// <param name="Feature">Id of the feature.</param>
/// <param name="Thermal">The thermal part.</param>
/// <param name="BudgetMicrometres">Its budget, in µm.</param>
/// <param name="InTolerance">The part is in tolerance all the same.</param>
public sealed record Miss(WorkOnMachine Work, string Feature, ThermalPart Thermal, double BudgetMicrometres, bool InTolerance);
