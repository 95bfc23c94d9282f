using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>From inspected values, cuts and checks to a verdict for each feature of each part.</summary>
/// <remarks>Pure: the same question gives the same answer to the last digit.</remarks>
public static class EvidenceAnalysis
{
    private const int MostUnknown = 500;

    /// <summary>Analyses.</summary>
    /// <param name="question">What is known.</param>
    public static EvidenceAnswer Of(EvidenceQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        var unknown = new List<string>();
        var cuts = new CutTable(question.Cuts);
        var evidence = Inspected(question, unknown).Select(inspected => FirstLook.At(question, inspected, cuts)).ToList();
        var groups = GroupTable.Of(question, evidence);
        var (spread, signature) = (new ResidualScatter(evidence), new ScaleSignature());
        var index = new EvidenceIndex(evidence, question.Checks);
        FeatureEvidence[] features =
        [
            .. evidence.Select(one => SecondLook.At(question, one, groups.Of(one), index, cuts, spread, signature))
                .OrderBy(one => one.Serial, StringComparer.Ordinal).ThenBy(one => one.Inspected.Step.Begin).ThenBy(one => one.Cut?.IndexOf(one.Inspected.Feature.Id) ?? -1),
        ];
        return new EvidenceAnswer
        {
            Features = features,
            Groups = groups.All,
            Validity = [.. question.Cell.Machines.Where(machine => features.Any(one => one.Inspected.Step.Machine == machine.Id)).Select(machine => ModelValidity.Of(machine, question.Checks, Latest(features, machine.Id)))],
            Unknown = [.. unknown.Take(MostUnknown), .. unknown.Count > MostUnknown ? [$"and {unknown.Count - MostUnknown} more"] : Array.Empty<string>()],
        };
    }

    private static DateTimeOffset Latest(FeatureEvidence[] features, string machine) =>
        features.Where(one => one.Inspected.Step.Machine == machine).Max(one => one.Inspected.Step.Begin);

    private static List<InspectedFeature> Inspected(EvidenceQuestion question, List<string> unknown)
    {
        var known = new List<(WorkStep Step, InspectionValue Value)>();
        var said = new HashSet<string>(StringComparer.Ordinal);
        foreach (var value in question.Values)
        {
            var (step, why) = question.Genealogy.StepOf(value);
            if (step is not null)
            {
                known.Add((step, value));
            }
            else if (said.Add(why!))
            {
                unknown.Add(why!);
            }
        }

        foreach (var device in question.Values.Where(value => value.Compensation == DeviceCompensation.Unknown).Select(value => value.Device).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            unknown.Add($"device {(device.Length > 0 ? device : "without a name")}: its compensation mode is not known; save it in the mapping of the device");
        }

        return [.. known.GroupBy(one => (one.Step, one.Value.Feature.Id), StepAndFeature.Same).Select(group => new InspectedFeature(group.Key.Step, [.. group.Select(one => one.Value)]))];
    }

    private sealed class StepAndFeature : IEqualityComparer<(WorkStep Step, string Feature)>
    {
        public static StepAndFeature Same { get; } = new();

        public bool Equals((WorkStep Step, string Feature) one, (WorkStep Step, string Feature) other) => ReferenceEquals(one.Step, other.Step) && one.Feature == other.Feature;

        public int GetHashCode((WorkStep Step, string Feature) one) => HashCode.Combine(one.Step.Serial, one.Step.Begin, one.Feature);
    }
}
