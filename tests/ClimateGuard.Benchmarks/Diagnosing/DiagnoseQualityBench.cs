using System.Globalization;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Benchmarks.Diagnosing;

/// <summary><c>diagnose-quality</c>: each labelled day of the open data, what was found, and the totals; one set of limits for all files.</summary>
internal static class DiagnoseQualityBench
{
    private static readonly string[] Units = ["SZCAV", "MZVAV-2-2"];

    public static void Run(bool wordy, bool alone)
    {
        if (!OpenAirHandlerDays.Available)
        {
            Console.WriteLine(OpenAirHandlerDays.Absent);
            return;
        }

        int healthy = 0, falsely = 0, faulty = 0, flagged = 0, right = 0;
        foreach (var unit in Units)
        {
            var cell = OpenAirHandlerDays.CellOf(unit);
            var frame = OpenAirHandlerDays.FrameOf(unit, cell);
            var options = new DiagnosisOptions { ByDay = true };
            var report = alone ? EachAlone(unit, frame, cell, options) : Diagnosis.Of(frame, cell, options);
            foreach (var note in report.Notes) Console.WriteLine($"{unit} note: {note}");
            foreach (var (date, label) in OpenAirHandlerDays.Labels(unit))
            {
                var found = report.Findings.Where(f => f.Day == DateOnly.ParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture)).ToList();
                var isFlagged = found.Any(f => f.Flagged);
                var isRight = isFlagged && found.Take(2).Any(f => f.Assessment.Component == label.Component);
                if (label.Component is null) (healthy, falsely) = (healthy + 1, falsely + (isFlagged ? 1 : 0));
                else (faulty, flagged, right) = (faulty + 1, flagged + (isFlagged ? 1 : 0), right + (isRight ? 1 : 0));
                var mark = label.Component is null ? (isFlagged ? "FALSE" : "ok") : isFlagged ? (isRight ? "ok" : "WRONG") : "missed";
                Console.WriteLine($"{unit,-9} {date} {label.Component ?? "-",-20} {label.Fault,-32} {mark,-6} {string.Join("; ", found.Take(3).Select(Short))}");
                if (!wordy) continue;
                foreach (var finding in found.Where(f => f.Probability > 0.01))
                    foreach (var e in finding.Assessment.Evidence) Console.WriteLine($"      {finding.Assessment.Cause.Id} {finding.Assessment.Component} {e.LogLikelihoodRatio:+0.0;-0.0} {e.Text}");
            }
        }

        Console.WriteLine(FormattableString.Invariant(
            $"fault-free days flagged {falsely} of {healthy}; faulty days flagged {flagged} of {faulty} ({100.0 * flagged / faulty:0} %); right component first or second {right} of {flagged} ({100.0 * right / Math.Max(1, flagged):0} %)"));
    }

    // What is left of the quality when no other day can be learned from.
    private static DiagnosisReport EachAlone(string unit, SignalFrame frame, Cell cell, DiagnosisOptions options)
    {
        var days = OpenAirHandlerDays.Labels(unit).Keys.Select(day => DateTimeOffset.Parse($"{day}T00:00:00Z", CultureInfo.InvariantCulture));
        var reports = days.Select(day => Diagnosis.Of(frame.Slice((int)(day - frame.Start).TotalMinutes, 1440), cell, options)).ToList();
        return new DiagnosisReport { Findings = [.. reports.SelectMany(r => r.Findings)], None = [], Notes = [] };
    }

    private static string Short(Finding finding) =>
        FormattableString.Invariant($"{finding.Assessment.Cause.Id} {finding.Assessment.Component} {finding.Probability:0.00}");
}
