using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How the hold threshold of a running cell moves.</summary>
public sealed partial class RunningCell
{
    private const string ThresholdAlert = "policy/hold-threshold";

    private HoldThreshold threshold;

    /// <summary>The newest that a machine remembers, as all remember the same.</summary>
    private void RestoreThreshold()
    {
        var newest = states.Select(state => state.Threshold).OfType<HoldThreshold>().MaxBy(known => known.Seq);
        threshold = newest?.Under(cell.Description.Policies) ?? threshold;
        Remember(threshold);
    }

    private void Judge(HoldScored scored, List<Decision> decisions)
    {
        var next = threshold.After(scored.Score.Verdict, cell.Description.Policies.HoldGrid);
        if (next == threshold)
        {
            return;
        }

        var before = threshold;
        Remember(next);
        if (next.InForce > before.InForce)
        {
            decisions.Add(new HoldThresholdMoved(scored.Time, before.InForce, next.InForce, $"fewer than {HoldThreshold.LeastConfirmed * 100:0} % of the last {HoldThreshold.Window} decided holds were confirmed"));
            decisions.Add(Told(scored.Time, Text(
                $"Too few holds were confirmed by a measurement: the cell holds from {next.InForce * 100:0} in 100 now, before from {before.InForce * 100:0} in 100."),
                cleared: false));
        }
    }

    private void Reset(PolicyReset said, DateTimeOffset moment, List<Decision> decisions)
    {
        var before = threshold;
        Remember(threshold.Reset());
        if (before.InForce == threshold.InForce)
        {
            return;
        }

        decisions.Add(new HoldThresholdMoved(moment, before.InForce, threshold.InForce, $"set back by {said.By}"));
        decisions.Add(Told(moment, Text($"{said.By} set the threshold back: the cell holds from {threshold.InForce * 100:0} in 100."), cleared: true));
    }

    private void Remember(HoldThreshold next)
    {
        var moved = next.InForce != threshold.InForce;
        threshold = next;
        for (var i = 0; i < states.Length; i++)
        {
            worthKeeping[i] |= states[i].Threshold != next;
            states[i] = states[i] with { Threshold = next, EvaluatedAt = moved ? null : states[i].EvaluatedAt };
        }
    }

    private static AlertRaised Told(DateTimeOffset moment, string text, bool cleared) => new(moment, new Alert(
        ThresholdAlert, null, "hold threshold", text,
        cleared ? "Nothing to do." : "Process owner: find out why holds are wrong, then change probability.hold in the plant file or send the event policyReset.",
        cleared));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
