namespace ClimateGuard.Evidence;

/// <summary>The cuts by what makes a step unique: serial, operation, machine, begin.</summary>
internal sealed class CutTable
{
    private readonly Dictionary<(string, string, string, DateTimeOffset), CutExposure> byStep = [];
    private readonly ILookup<string, CutExposure> byPart;
    private readonly Dictionary<(CutExposure, string), Prediction?> predicted = new(SameCut.Instance);

    public CutTable(IReadOnlyList<CutExposure> cuts)
    {
        byPart = cuts.ToLookup(cut => cut.Part.Number, StringComparer.Ordinal);
        foreach (var cut in cuts) byStep[Key(cut.Step)] = cut;
    }

    /// <summary>The cuts of one part number.</summary>
    public IEnumerable<CutExposure> OfPart(string number) => byPart[number];

    /// <summary>The effect computed of a feature of a cut, once.</summary>
    public Prediction? Predicted(CutExposure cut, string feature)
    {
        if (!predicted.TryGetValue((cut, feature), out var known))
        {
            known = Prediction.Recomputed(cut.Of(feature), cut.IndexOf(feature));
            predicted.Add((cut, feature), known);
        }

        return known;
    }

    public CutExposure? Of(WorkStep step) => byStep.GetValueOrDefault(Key(step));

    private static (string, string, string, DateTimeOffset) Key(WorkStep step) => (step.Serial, step.Operation, step.Machine, step.Begin);

    private sealed class SameCut : IEqualityComparer<(CutExposure Cut, string Feature)>
    {
        public static SameCut Instance { get; } = new();

        public bool Equals((CutExposure Cut, string Feature) one, (CutExposure Cut, string Feature) other) => ReferenceEquals(one.Cut, other.Cut) && one.Feature == other.Feature;

        public int GetHashCode((CutExposure Cut, string Feature) one) => HashCode.Combine(System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(one.Cut), one.Feature);
    }
}
