using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>What became of each part: its steps over machines and operations, from jobs, permits and cuts.</summary>
/// <remarks>
/// A serial may return (rework), get its serial late, or share a pallet with others. A job that names another serial of the same part while a cut
/// runs cannot be another part: it is the serial given late. Immutable; the same events give the same record.
/// </remarks>
public sealed class GenealogyRecord
{
    private readonly Dictionary<string, List<WorkStep>> bySerial = new(StringComparer.Ordinal);

    private GenealogyRecord(IReadOnlyList<WorkStep> steps)
    {
        Steps = steps;
        foreach (var step in steps)
        {
            Add(step.Serial, step);
            if (step.FormerSerial is { } former) Add(former, step);
        }
    }

    /// <summary>All steps, by their begin.</summary>
    public IReadOnlyList<WorkStep> Steps { get; }

    /// <summary>Puts a record together.</summary>
    /// <param name="events">What happened, in any order.</param>
    /// <returns>The record.</returns>
    public static GenealogyRecord Of(IEnumerable<CellEvent> events)
    {
        ArgumentNullException.ThrowIfNull(events);
        var builder = new GenealogyBuilder();
        foreach (var happened in events.OfType<MachineEvent>().OrderBy(happened => happened.Time)) builder.Take(happened);
        return new GenealogyRecord([.. builder.Steps().OrderBy(step => step.Begin)]);
    }

    /// <summary>The steps of a part, by their begin; empty when the serial is not known.</summary>
    /// <param name="serial">Its serial, or the one it had before.</param>
    public IReadOnlyList<WorkStep> OfSerial(string serial) => bySerial.TryGetValue(serial, out var steps) ? steps : [];

    /// <summary>The step whose work a result measured, or null when it is not known or several are possible.</summary>
    /// <remarks>With a rework the last step that ended before the measurement. Machine or operation that the result leaves empty must follow from the steps.</remarks>
    /// <param name="value">The result.</param>
    /// <returns>The step; null with the reason.</returns>
    public (WorkStep? Step, string? Why) StepOf(InspectionValue value)
    {
        ArgumentNullException.ThrowIfNull(value);
        var known = OfSerial(value.Serial);
        if (known.Count == 0) return (null, $"serial {value.Serial} is not known: no job, permit or cut names it");
        WorkStep[] fitting =
        [
            .. known.Where(step => (value.Operation.Length == 0 || step.Operation == value.Operation) && (value.Machine.Length == 0 || step.Machine == value.Machine)
                && (step.Part.Length == 0 || value.Part.Length == 0 || step.Part == value.Part)),
        ];
        // A step that says it cut this feature wins; one that names no feature, or others only, may still have.
        WorkStep[] named = [.. fitting.Where(step => step.Cuts.Any(cut => cut.Feature == value.Feature.Id) || step.RequestOf(value.Feature.Id) is not null)];
        fitting = named.Length > 0 ? named : fitting;
        if (fitting.Length == 0)
            return (null, $"serial {value.Serial} was not cut as {value.Part} operation {Word(value.Operation)} on {Word(value.Machine)}; known: {string.Join("; ", known.Take(5).Select(step => $"{step.Part} operation {step.Operation} on {step.Machine}"))}");
        if (value.Machine.Length == 0 && fitting.Select(step => (step.Machine, step.Operation)).Distinct().Count() > 1)
            return (null, $"serial {value.Serial}, feature {value.Feature.Id}: cut in several operations, and the file does not say which: {string.Join("; ", fitting.Take(5).Select(step => $"operation {step.Operation} on {step.Machine}"))}");
        return (fitting.LastOrDefault(step => value.MeasuredAt is not { } at || step.Begin <= at) ?? fitting[0], null);
    }

    private static string Word(string text) => text.Length == 0 ? "any" : text;

    private void Add(string serial, WorkStep step)
    {
        if (!bySerial.TryGetValue(serial, out var steps)) bySerial.Add(serial, steps = []);
        steps.Add(step);
    }
}
