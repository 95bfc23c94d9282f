using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>The groups of an analysis by part and feature.</summary>
internal sealed class GroupTable
{
    private readonly Dictionary<(string, string), GroupEvidence> byFeature = [];

    private GroupTable(IEnumerable<GroupEvidence> groups)
    {
        foreach (var group in groups) byFeature[(group.Part, group.Feature)] = group;
    }

    public IReadOnlyList<GroupEvidence> All => [.. byFeature.Values.OrderBy(group => group.Part, StringComparer.Ordinal).ThenBy(group => group.Feature, StringComparer.Ordinal)];

    public static GroupTable Of(EvidenceQuestion question, IReadOnlyList<FeatureEvidence> evidence)
    {
        var shifts = new ShiftLabels(question.Cell.Description.Policies.Shifts, question.Zone);
        return new GroupTable(
            evidence.GroupBy(one => (one.Inspected.Worst.Part, one.Inspected.Feature.Id)).Select(group => Group(group.Key.Part, [.. group], shifts)).OfType<GroupEvidence>());
    }

    public GroupEvidence? Of(FeatureEvidence one) => byFeature.GetValueOrDefault((one.Inspected.Worst.Part, one.Inspected.Feature.Id));

    private static GroupEvidence? Group(string part, FeatureEvidence[] all, ShiftLabels shifts)
    {
        // With vectors a position has a sign: its scale. A group is of one kind, so those without are left out where some have.
        var withVectors = all.Where(one => one.Pattern is not null).ToArray();
        var of = withVectors.Length > 0 ? withVectors : all;
        GroupPoint[] points = [.. of.Select(one => Point(one, shifts)).OfType<GroupPoint>()];
        var feature = all[0].Inspected.Feature;
        var signed = withVectors.Length > 0 || feature is not (PositionFeature or CoaxialityFeature);
        return points.Length == 0 ? null : GroupAnalysis.Of(part, feature.Id, points, signed, feature.ToleranceMillimetres * 1000);
    }

    private static GroupPoint? Point(FeatureEvidence one, ShiftLabels shifts)
    {
        if (one.Recomputed is not { } recomputed || one.AtReference.Worst.Micrometres is not { } deviation || one.Exposure is not { } exposure) return null;
        var step = one.Inspected.Step;
        var at = step.Window(one.Inspected.Feature.Id)?.Start ?? step.Begin;
        var (shift, began) = shifts.At(at);
        var (y, uy, x) = (deviation, one.AtReference.Worst.StandardUncertainty ?? FeatureAtReference.UsualU, recomputed.MeanMicrometres);
        if (one.Pattern is { } pattern)
        {
            var diameter = FeatureAtReference.Nominal(one.Inspected.Feature) / 1000;
            (y, uy, x) = (
                pattern.Fit.ScaleMicrometresPerMetre.Value * diameter, pattern.Fit.ScaleMicrometresPerMetre.StandardError * diameter,
                pattern.PredictedFit.ScaleMicrometresPerMetre.Value * diameter);
        }

        var budget = one.Inspected.Feature.Budget.MicrometresFor(one.Inspected.Feature.ToleranceMillimetres);
        return new GroupPoint
        {
            Serial = step.Serial, Machine = step.Machine, At = at, Episode = FormattableString.Invariant($"{step.Machine} {began:yyyy-MM-dd} {shift}"),
            Measured = y, UMeasured = Math.Max(uy, 1e-3), Predicted = x, UPredicted = Math.Max(recomputed.UMicrometres, 1e-3), NaiveAirKelvins = exposure.NaiveAirKelvins,
            Exceeded = Math.Abs(recomputed.MeanMicrometres) > budget, OutOfTolerance = !one.Inspected.InTolerance, Labels = Labels(one, shift),
        };
    }

    private static Dictionary<string, string> Labels(FeatureEvidence one, string shift)
    {
        var step = one.Inspected.Step;
        var labels = new Dictionary<string, string>(StringComparer.Ordinal) { ["shift"] = shift };
        void Add(string name, string? value)
        {
            if (!string.IsNullOrEmpty(value)) labels[name] = value;
        }

        Add("operator", step.Operator);
        Add("program", step.Program);
        Add("tool", step.Tools.Count > 0 ? string.Join(", ", step.Tools) : null);
        Add("device", one.Inspected.Worst.Device);
        Add("batch", step.Batch);
        return labels;
    }
}
