using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>The evidence of all features, found by what belongs together.</summary>
internal sealed class EvidenceIndex
{
    private readonly Dictionary<(string Part, string Feature, string Machine), FeatureEvidence[]> inOrder;
    private readonly Dictionary<(string Serial, DateTimeOffset Begin, string Machine, string Feature), InspectedFeature> inspected = [];
    private readonly ILookup<(string, string, string), ModelCheck> checksOfWork;
    private readonly Dictionary<string, ModelCheck[]> newestChecks;

    public EvidenceIndex(IReadOnlyList<FeatureEvidence> all, IReadOnlyList<ModelCheck> checks)
    {
        inOrder = all.GroupBy(KeyOf).ToDictionary(group => group.Key, group => group.OrderBy(one => one.Inspected.Step.Begin).ToArray());
        foreach (var one in all) inspected[(one.Serial, one.Inspected.Step.Begin, one.Inspected.Step.Machine, one.Inspected.Feature.Id)] = one.Inspected;
        checksOfWork = checks.ToLookup(check => (check.Serial, check.Operation, check.Machine));
        newestChecks = checks.GroupBy(check => check.Machine, StringComparer.Ordinal).ToDictionary(machine => machine.Key, ModelValidity.Newest, StringComparer.Ordinal);
    }

    /// <summary>The same feature of the part cut before on the same machine, or null.</summary>
    public FeatureEvidence? Before(FeatureEvidence one)
    {
        var same = inOrder[KeyOf(one)];
        int low = 0, high = same.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (same[middle].Inspected.Step.Begin < one.Inspected.Step.Begin) low = middle + 1;
            else high = middle;
        }

        return low > 0 ? same[low - 1] : null;
    }

    /// <summary>What inspection said of a feature of a cut, or null.</summary>
    public InspectedFeature? Inspected(CutExposure cut, string feature) => inspected.GetValueOrDefault((cut.Step.Serial, cut.Step.Begin, cut.Step.Machine, feature));

    /// <summary>The checks that were taken at a step of work.</summary>
    public IEnumerable<ModelCheck> ChecksOf(WorkStep step) => checksOfWork[(step.Serial, step.Operation, step.Machine)];

    /// <summary>How far the model of a machine may be trusted at a moment.</summary>
    public ModelValidity ValidityOf(Machine machine, DateTimeOffset at) => ModelValidity.Of(machine, newestChecks.GetValueOrDefault(machine.Id, []), at);

    private static (string, string, string) KeyOf(FeatureEvidence one) => (one.Inspected.Worst.Part, one.Inspected.Feature.Id, one.Inspected.Step.Machine);
}
