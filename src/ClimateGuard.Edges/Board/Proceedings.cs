using System.Globalization;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Board;

/// <summary>What was asked, answered, held and taken on oneself of each piece of work, in order.</summary>
public sealed class Proceedings
{
    private readonly Dictionary<WorkOnMachine, List<(DateTimeOffset Time, string Text)>> byWork = [];
    private readonly Dictionary<string, (WorkOnMachine Work, Level Level)> shown = new(StringComparer.Ordinal);

    /// <summary>The lines of a piece of work.</summary>
    public IReadOnlyList<(DateTimeOffset Time, string Text)> Of(string machine, string serial, string operation) =>
        byWork.TryGetValue(new WorkOnMachine(machine, serial, operation), out var lines) ? lines : [];

    /// <summary>Takes the decisions of a step.</summary>
    public void Take(IReadOnlyList<Decision> decisions)
    {
        ArgumentNullException.ThrowIfNull(decisions);
        foreach (var decision in decisions)
        {
            Take(decision);
        }
    }

    private void Take(Decision decision)
    {
        switch (decision)
        {
            case RequestAnswered { Repeated: false, Answer: var answer }:
                Say(answer.Machine, answer.Serial, answer.Operation, answer.Time,
                    $"request {answer.RequestId} answered {answer.Answer.Word()}{(answer.Permit is { } permit ? $", permit {permit.Id}" : "")}: {answer.Text}{Numbers(answer.Worst)}");
                break;
            case OverrideTaken { Override: { } taken } said:
                Say(said.Machine, taken.Serial, taken.Operation, said.Time,
                    $"override by {taken.By}{(taken.SecondBy is { } second ? $" and {second}" : "")}: {taken.Reason}{(taken.InForce ? "" : " (not in force)")}");
                break;
            case CutWithoutPermit cut:
                Say(cut.Machine, cut.Serial, cut.Operation, cut.Time, "the cut began without a permit");
                break;
            case HoldScored { Score: var score } scored:
                Say(score.Machine, score.Serial, score.Operation, scored.Time, string.Create(
                    CultureInfo.InvariantCulture, $"{score.Measurement}: predicted {score.PredictedMicrometres:0.0}, measured {score.MeasuredMicrometres:0.0} µm"));
                break;
            case OutlookIssued { Changed: true, Outlook: { Serial.Length: > 0 } outlook } issued:
                Outlook(outlook, issued.Time);
                break;
        }
    }

    private void Outlook(Outlook outlook, DateTimeOffset time)
    {
        var work = new WorkOnMachine(outlook.Machine, outlook.Serial, outlook.Operation);
        var before = shown.GetValueOrDefault(outlook.Machine);
        shown[outlook.Machine] = (work, outlook.Level);
        // Ready and watch come and go by the minute; what a board asks about is what kept the cut waiting, and when that ended.
        var matters = Matters(outlook.Level) || (before.Work == work && Matters(before.Level));
        if (before == (work, outlook.Level) || !matters)
        {
            return;
        }

        Say(work.Machine, work.Serial, work.Operation, time, $"shown {outlook.Level.Word()}: {outlook.Reason}{Numbers(outlook.Worst)}");
    }

    private static bool Matters(Level level) => level is Level.Hold or Level.MeasureFirst or Level.NotKnown or Level.Bypassed;

    private static string Numbers(FeatureOutlook? worst) => worst is null ? "" : string.Create(
        CultureInfo.InvariantCulture, $" ({worst.Feature}: {worst.WorstMicrometres:0.0} of {worst.BudgetMicrometres:0.0} µm, {worst.Probability:P0})");

    private void Say(string machine, string serial, string operation, DateTimeOffset time, string text)
    {
        var work = new WorkOnMachine(machine, serial, operation);
        if (!byWork.TryGetValue(work, out var lines))
        {
            byWork.Add(work, lines = []);
        }

        lines.Add((time, text));
    }
}
