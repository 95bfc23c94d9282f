using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Commands;

/// <summary>What a tried policy would change, for a person and for a machine.</summary>
internal sealed record PolicyText(PolicyComparison Comparison, ScoreReport Before, ScoreReport After)
{
    private const int MostLines = 200;

    public string Json() => new JsonObject
    {
        ["answers"] = Comparison.Answers,
        ["answersThatDiffer"] = Count("answer"),
        ["levelsThatDiffer"] = Count("level"),
        ["differences"] = JsonSerializer.SerializeToNode(Comparison.Differences, JsonSerializerOptions.Web),
        ["outcomes"] = JsonSerializer.SerializeToNode(
            Comparison.Outcomes.Select(outcome => new
            {
                outcome.Time, outcome.Score.Machine, outcome.Score.Serial, outcome.Score.Feature,
                confirmed = outcome.Score.Verdict == HoldVerdict.Confirmed, outcome.HeldBefore, outcome.HeldAfter,
            }),
            JsonSerializerOptions.Web),
        ["before"] = JsonNode.Parse(ScoreJson.ToUtf8(Before, null)),
        ["after"] = JsonNode.Parse(ScoreJson.ToUtf8(After, null)),
    }.ToJsonString();

    public string ForPeople()
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{Count("answer")} of {Comparison.Answers} answers and {Count("level")} times the level would differ.");
        foreach (var one in Comparison.Differences.Take(MostLines))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"{one.Time.UtcDateTime:u} {one.Machine} {one.Serial} {one.What}: {one.From} -> {one.To}");
        }

        if (Comparison.Differences.Count > MostLines)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"and {Comparison.Differences.Count - MostLines} more; --json has them all.");
        }

        Tell(text, "Now", Before, outcome => outcome.HeldBefore);
        Tell(text, "Tried", After, outcome => outcome.HeldAfter);
        return text.ToString().TrimEnd();
    }

    private void Tell(StringBuilder text, string who, ScoreReport report, Func<MeasuredOutcome, bool> held)
    {
        text.AppendLine(ScoreWords.Count($"{who}, held", report.Held));
        text.AppendLine(ScoreWords.Lost(report.Held));
        text.AppendLine(CultureInfo.InvariantCulture, $"Of the measured: {Held(HoldVerdict.Confirmed, held)} confirmed and {Held(HoldVerdict.Refuted, held)} refuted ones held.");
        text.AppendLine(ScoreWords.Inspection(report.Inspection));
    }

    private string Held(HoldVerdict verdict, Func<MeasuredOutcome, bool> held) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Comparison.Outcomes.Count(outcome => outcome.Score.Verdict == verdict && held(outcome))} of {Comparison.Outcomes.Count(outcome => outcome.Score.Verdict == verdict)}");

    private int Count(string what) => Comparison.Differences.Count(one => one.What == what);
}
