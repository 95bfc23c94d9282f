using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Brings recorded cuts and the genealogy of the parts together.</summary>
public static class RecordedCuts
{
    /// <summary>The exposures of the steps of a genealogy.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="genealogy">What became of each part.</param>
    /// <param name="cuts">The recorded cuts.</param>
    /// <returns>One for each step of a known part and machine that was recorded.</returns>
    public static IReadOnlyList<CutExposure> Exposures(Cell cell, GenealogyRecord genealogy, IReadOnlyList<RecordedCut> cuts)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(genealogy);
        ArgumentNullException.ThrowIfNull(cuts);
        var found = new List<CutExposure>();
        foreach (var group in cuts.Select(cut => (Cut: cut, Step: StepOf(genealogy, cut))).Where(one => one.Step is not null).GroupBy(one => one.Step!, ReferenceEqualityComparer.Instance))
        {
            var step = (WorkStep)group.Key!;
            RecordedCut[] own = [.. group.Select(one => one.Cut).OrderBy(cut => cut.Start)];

            var recorded = Counting(step, own);
            if (cell.FindPart(recorded[0].Part.Length > 0 ? recorded[0].Part : step.Part) is not { } part || cell.FindMachine(step.Machine) is not { } machine)
            {
                continue;
            }

            found.Add(new CutExposure
            {
                Step = step.Part.Length > 0 ? step : step with { Part = part.Number },
                Part = part,
                Machine = machine,
                Samples = recorded.Length == 1 ? recorded[0].Samples : [.. recorded.SelectMany(cut => cut.Samples).GroupBy(sample => sample.Time).Select(same => same.Last()).OrderBy(sample => sample.Time)],
                Frozen = Frozen(step, part, recorded),
                From = recorded[0].Start,
                To = recorded[^1].End,
            });
        }

        return found;
    }

    // A request whose cut began later was recorded twice, and the cut counts; a request that no cut followed is all there is of its feature.
    private static RecordedCut[] Counting(WorkStep step, RecordedCut[] own)
    {
        RecordedCut[] counting =
        [
            .. own.Where(cut => step.Cuts.Any(span => span.Start == cut.Start)
                || step.Events.OfType<PermitRequested>().Any(request => request.Time == cut.Start && step.RequestOf(request.Feature)?.Time == request.Time)),
        ];
        return counting.Length > 0 ? counting : own;
    }

    // Each feature by the cut it belongs to: what was predicted of a groove when another was cut is not its prediction.
    private static Dictionary<string, Prediction> Frozen(WorkStep step, Part part, RecordedCut[] recorded)
    {
        var frozen = new Dictionary<string, Prediction>(StringComparer.Ordinal);
        foreach (var feature in part.Features)
        {
            var start = step.Window(feature.Id)?.Start;
            var cut = recorded.LastOrDefault(one => one.Start <= start) ?? recorded[0];
            if (cut.Frozen.TryGetValue(feature.Id, out var prediction))
            {
                frozen.Add(feature.Id, prediction);
            }
        }

        return frozen;
    }

    private static WorkStep? StepOf(GenealogyRecord genealogy, RecordedCut cut) => genealogy.OfSerial(cut.Work.Serial).LastOrDefault(step =>
        step.Machine == cut.Work.Machine && step.Operation == cut.Work.Operation && step.Begin <= cut.Start && (step.End is null || step.End >= cut.Start));
}
