using System.CommandLine;
using System.Globalization;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard diagnose</c>: which cause, how sure, what to check first, from a file of readings.</summary>
internal static class DiagnoseCommand
{
    private static readonly Option<string> Readings = new("--readings") { Description = "The readings, CSV, plain or gzip.", HelpName = "FILE", Required = true };

    private static readonly Option<string?> By = new("--by") { Description = "day: each day on its own.", HelpName = "day" };

    public static Command Create()
    {
        By.AcceptOnlyFromAmong("day");
        var command = new Command("diagnose", "Air-handler and enclosure findings, ranked, with what to check first.\n\n"
            + "Example: climateguard diagnose --plant config/plant.yaml --readings readings.csv --by day\n"
            + "readings.csv: time,sensor,value,unit in any order; time as RFC 3339, sensor as in the plant file") { CommandLine.Plant, Readings, By };
        command.SetAction(parsed => Run(
            ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant)), parsed.GetRequiredValue(Readings), parsed.GetValue(By) is "day",
            parsed.GetValue(CommandLine.Json)));
        return command;
    }

    private static int Run(string plantFile, string readingsFile, bool byDay, bool json)
    {
        var plant = PlantFileReader.Read(plantFile);
        if (plant.Cell is not { } cell) return CommandLine.Refuse(plant.Problems.Select(problem => problem.ToString()));
        if (cell.Description.AirHandlers.Count == 0)
            return CommandLine.Refuse([$"{plantFile}: there is no air handler to diagnose; describe it under airHandlers with its points."]);
        try
        {
            var (frame, notes) = ReadingsFrame.Read(readingsFile, cell);
            var zone = TimeZoneInfo.FindSystemTimeZoneById(cell.Description.TimeZone);
            var report = Diagnosis.Of(frame, cell, new DiagnosisOptions { TimeZone = zone, ByDay = byDay });
            report = report with { Notes = [.. notes, .. report.Notes] };
            if (json) Console.Out.WriteLine(DiagnosisJson.Text(report));
            else Print(report);
            return CommandLine.Done;
        }
        catch (Exception wrong) when (wrong is UnreadableFileException or InvalidOperationException)
        {
            return CommandLine.Refuse([wrong.Message]);
        }
    }

    private static void Print(DiagnosisReport report)
    {
        foreach (var note in report.Notes) Console.Out.WriteLine($"note: {note}");
        foreach (var group in DiagnosisJson.Told(report).GroupBy(f => (f.Day, f.Assessment.AirHandler)))
        {
            var none = report.None.FirstOrDefault(n => n.Day == group.Key.Day && n.AirHandler == group.Key.AirHandler);
            Console.Out.WriteLine(Say($"{(group.Key.Day is { } day ? $"{day:yyyy-MM-dd} " : "")}{group.Key.AirHandler}: none of these {none?.Probability ?? 0:P0}"));
            foreach (var finding in group.Where(f => f.Seen().Any() || f.Flagged).Take(3)) Print(finding);
            foreach (var missing in group.SelectMany(f => f.Assessment.Missing).Distinct().Take(5)) Console.Out.WriteLine($"    not known: {missing}");
        }
    }

    private static void Print(Finding finding)
    {
        var about = finding.Assessment;
        Console.Out.WriteLine(Say(
            $"  {finding.Probability,4:P0} {(finding.Flagged ? "" : "candidate: ")}{about.Words} ({about.Component}, {about.Cause.Id}){(finding.Onset is { } onset ? $" since {onset:yyyy-MM-dd HH:mm}Z" : "")}"));
        foreach (var evidence in finding.Seen()) Console.Out.WriteLine($"       {(evidence.LogLikelihoodRatio > 0 ? "for" : "against")}: {evidence.Text}");
        if (finding.Flagged)
            Console.Out.WriteLine(Say($"       first check ({about.Cause.FirstCheck.Minutes:0} min, {about.Cause.FirstCheck.Tool}): {about.Cause.FirstCheck.Text} If so: {about.Cause.FirstCheck.Expected}."));
    }

    private static IEnumerable<ClimateGuard.Enclosure.Evidence> Seen(this Finding finding) => finding.Assessment.Evidence.Where(e => e.LogLikelihoodRatio is > 0.5 or < -0.5);

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
