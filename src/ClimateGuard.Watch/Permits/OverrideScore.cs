using ClimateGuard.Evidence;

namespace ClimateGuard.Watch;

/// <summary>What the inspection said about an override: whether the part that was cut on it came out in tolerance.</summary>
/// <remarks>An override is data, not guilt: right ones say that the model was too careful with that feature.</remarks>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Serial">Serial number.</param>
/// <param name="Operation">Operation.</param>
/// <param name="By">Who took the responsibility.</param>
/// <param name="Reason">Why.</param>
/// <param name="Right">Every inspected feature was in tolerance.</param>
/// <param name="OutOfTolerance">The features that were not.</param>
/// <param name="Inspected">How many values were inspected.</param>
public sealed record OverrideScore(
    string Machine, string Serial, string Operation, string By, string Reason, bool Right, IReadOnlyList<string> OutOfTolerance, int Inspected)
{
    /// <summary>Scores the overrides of which inspection values came; each work counts once, by the override last in force.</summary>
    /// <param name="overrides">The overrides that were in force, with their machine, oldest first.</param>
    /// <param name="values">What was inspected.</param>
    public static IReadOnlyList<OverrideScore> Of(IEnumerable<(string Machine, ActiveOverride Override)> overrides, IReadOnlyList<InspectionValue> values)
    {
        ArgumentNullException.ThrowIfNull(overrides);
        ArgumentNullException.ThrowIfNull(values);
        return
        [
            .. overrides.Where(taken => taken.Override.InForce)
                .GroupBy(taken => (taken.Machine, taken.Override.Serial, taken.Override.Operation))
                .Select(work => Score(work.Last(), values)).OfType<OverrideScore>(),
        ];
    }

    private static OverrideScore? Score((string Machine, ActiveOverride Override) taken, IReadOnlyList<InspectionValue> values)
    {
        var (machine, given) = taken;
        var mine = values.Where(value => value.Machine == machine && value.Serial == given.Serial && value.Operation == given.Operation).ToArray();
        if (mine.Length == 0)
        {
            return null;
        }

        string[] bad = [.. mine.Where(value => !value.InTolerance).Select(value => value.Feature.Id).Distinct()];
        return new OverrideScore(machine, given.Serial, given.Operation, given.By, given.Reason, bad.Length == 0, bad, mine.Length);
    }
}
