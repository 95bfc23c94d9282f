using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Commands;

/// <summary>The scoreboard as lines for a person.</summary>
internal static class ScoreText
{
    public static string Of(ScoreReport report, IReadOnlyList<AirLimitScore>? air)
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"From {report.From.UtcDateTime:u} to {report.To.UtcDateTime:u}.");
        if (report.WouldHaveHeld.Holds == 0 || report.Held.Holds > 0)
        {
            Tell(text, ScoreWords.Held, report.Held);
        }

        if (report.WouldHaveHeld.Holds > 0)
        {
            Tell(text, ScoreWords.WouldHaveHeld, report.WouldHaveHeld);
        }

        text.AppendLine(ScoreWords.Inspection(report.Inspection));
        foreach (var limit in air ?? [])
        {
            text.AppendLine(ScoreWords.Air(limit, report));
        }

        text.AppendLine(ScoreWords.NoTool(report));
        foreach (var row in report.Thresholds.Where(_ => report.Cases > 0))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"hold from {row.Threshold:0.00}: {row.Right} of {row.Held} held right, {row.Right} of {row.Exceeded} exceedances held");
        }

        foreach (var hold in report.Holds)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"{hold.Begin.UtcDateTime:u} {hold.Work.Machine} {hold.Work.Serial} {hold.Score?.Feature ?? hold.Prediction?.Feature}: {ScoreJson.Outcome(hold)}, {CellTime.Length(hold.Stood(report.To))}{ScoreWords.Numbers(hold)}");
        }

        return text.ToString().TrimEnd();
    }

    private static void Tell(StringBuilder text, string what, HoldTally tally)
    {
        text.AppendLine(ScoreWords.Count(what, tally));
        text.AppendLine(ScoreWords.Share(tally));
        text.AppendLine(ScoreWords.Lost(tally));
    }
}
