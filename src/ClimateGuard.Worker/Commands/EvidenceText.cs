using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Board;
using ClimateGuard.Evidence;

namespace ClimateGuard.Worker.Commands;

/// <summary>Evidence as lines for a terminal: what is out of tolerance first.</summary>
internal static class EvidenceText
{
    public static string Of(BoardData data)
    {
        var text = new StringBuilder();
        foreach (var one in data.Answer.Features.OrderBy(one => one.Inspected.InTolerance))
        {
            var step = one.Inspected.Step;
            Say(text, $"{one.Serial}  {one.Inspected.Worst.Part} {one.Inspected.Feature.Id}, operation {step.Operation} on {step.Machine}: level {(int)one.Verdict.Level}, {one.Verdict.Wording}");
            Say(text, $"    measured {Number(one.AtReference.Worst.Micrometres)} of {one.Inspected.Feature.ToleranceMillimetres * 1000:0.#} µm at 20 °C ({one.AtReference.Worst.Note}), {(one.Inspected.InTolerance ? "in tolerance" : "OUT OF TOLERANCE")}; without temperature in tolerance: {one.AtZeroEffect.Word}");
            Say(text, $"    predicted then {Number(one.Frozen?.MeanMicrometres)}, computed now {Number(one.Recomputed?.MeanMicrometres)} ± {Number(one.Recomputed?.UMicrometres)}, towards the deviation {Number(one.PredictedMicrometres)} µm");
            foreach (var reason in one.Verdict.Reasons)
            {
                Say(text, $"    {reason}");
            }

            foreach (var cap in one.Verdict.Caps)
            {
                Say(text, $"    no more than that, as it {cap}");
            }
        }

        foreach (var group in data.Answer.Groups.Where(group => group.Slope is not null))
        {
            Say(text, $"{group.Part} {group.Feature}: {group.Points.Count} parts in {group.Episodes} episodes, slope {group.Slope!.Slope.Value:0.00} ({group.Slope.Interval.Low:0.00} to {group.Slope.Interval.High:0.00}), R² {group.RSquared:0.00}; air alone R² {Number(group.NaiveRSquared)}");
        }

        foreach (var validity in data.Answer.Validity)
        {
            Say(text, $"model of {validity.Machine}: {(validity.Valid ? $"valid, {validity.Checks.Count} checks, {validity.Coverage:P0} agree" : validity.NotValidBecause)}");
        }

        if (data.OnlyExposures) Say(text, $"the span is longer than {EvidenceFiles.UsualOutlooksUpTo.TotalDays:0} days: only temperatures were followed, with one outlook before each cut; holds are not told");
        foreach (var unknown in data.Answer.Unknown)
        {
            Say(text, $"not known: {unknown}");
        }

        return text.ToString().TrimEnd();
    }

    private static string Number(double? value) => value is { } known && double.IsFinite(known) ? known.ToString("0.0#", CultureInfo.InvariantCulture) : "not known";

    private static void Say(StringBuilder text, FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
