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

            // A request whose cut began later was recorded twice; the cut counts.
            var recorded = step.Cuts.Count > 0 ? own.Where(cut => step.Cuts.Any(span => span.Start == cut.Start)).ToArray() : own;
            recorded = recorded.Length > 0 ? recorded : own;
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
                Frozen = recorded[0].Frozen,
                From = recorded[0].Start,
                To = recorded[^1].End,
            });
        }

        return found;
    }

    private static WorkStep? StepOf(GenealogyRecord genealogy, RecordedCut cut) => genealogy.OfSerial(cut.Work.Serial).LastOrDefault(step =>
        step.Machine == cut.Work.Machine && step.Operation == cut.Work.Operation && step.Begin <= cut.Start && (step.End is null || step.End >= cut.Start));
}
