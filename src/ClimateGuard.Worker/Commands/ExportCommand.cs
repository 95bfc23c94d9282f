using System.CommandLine;
using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard export</c>: the rows of the store, each with its raw value and the judgement on it.</summary>
internal static class ExportCommand
{
    private static readonly Option<string> Out = new("--out")
    {
        Description = "The file to write; its ending says how: .csv, .csv.gz or .parquet.", HelpName = "FILE", Required = true,
    };

    private static readonly Option<string[]> Sensors = new("--sensor")
    {
        Description = "Only these sensors (default: all of the plant file).", HelpName = "ID", AllowMultipleArgumentsPerToken = true,
    };

    private static readonly Option<string?> From = new("--from") { Description = "Begin, inclusive, such as 2026-01-10T08:00:00Z.", HelpName = "TIME" };

    private static readonly Option<string?> To = new("--to") { Description = "End, exclusive.", HelpName = "TIME" };

    public static Command Create()
    {
        var command = new Command("export", "Writes the readings of the store to a file, each with its raw value and the judgement on it; the file is whole or not there. "
            + "A reading that was set aside has a raw value and no value. Also while a worker runs.\n\n"
            + "Example: climateguard export --plant config/plant.yaml --out readings.csv.gz --from 2026-01-01T00:00:00Z")
        {
            CommandLine.Plant, CommandLine.SettingsFile, Out, Sensors, From, To,
        };
        command.SetAction((parsed, cancellation) => RunAsync(parsed, cancellation));
        return command;
    }

    private static async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        if (PlantAndSettings.Read(parsed.GetValue(CommandLine.Plant), parsed.GetValue(CommandLine.SettingsFile)) is not { } given)
        {
            return CommandLine.BadInput;
        }

        var path = parsed.GetRequiredValue(Out);
        var problems = new List<string>();
        var sensors = Chosen(given.Cell, parsed.GetValue(Sensors) ?? [], problems);
        var from = Time("--from", parsed.GetValue(From), Rfc3339.EarliestEpochMilliseconds, problems);
        var to = Time("--to", parsed.GetValue(To), Rfc3339.LatestEpochMilliseconds, problems);
        if (!ReadingsExport.CanWrite(path))
        {
            problems.Add($"--out {path}: a name that ends with .csv, .csv.gz or .parquet is allowed.");
        }

        if (problems.Count == 0 && from >= to)
        {
            problems.Add($"--from {Rfc3339.Text(from)} must lie before --to {Rfc3339.Text(to)}.");
        }

        problems.ForEach(problem => Console.Error.WriteLine($"climateguard export: {problem}"));
        return problems.Count > 0 ? CommandLine.BadInput
            : await WriteAsync(given, new ReadingsExport { Path = path, Sensors = sensors, From = from, To = to }, parsed.GetValue(CommandLine.Json), cancellation);
    }

    private static async Task<int> WriteAsync(PlantAndSettings given, ReadingsExport export, bool json, CancellationToken cancellation)
    {
        try
        {
            await using var store = ReadingStoreAtHand.OpenToRead(given.Settings, given.Cell);
            ExportCounts counts;
            using (var progress = new ProgressLine(export.Path))
            {
                counts = await (export with { Progress = (share, rows) => progress.Show("writing", share, rows) }).WriteAsync(store.Readings, cancellation);
            }

            Say(export, counts, json);
            return CommandLine.Done;
        }
        catch (StoreUnavailableException unavailable)
        {
            return CommandLine.Refuse("export", unavailable.Message);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            return CommandLine.Refuse("export", $"stopped; {export.Path} was not written.", CommandLine.Failed);
        }
    }

    private static void Say(ReadingsExport export, ExportCounts counts, bool json) => Console.Out.WriteLine(json
        ? JsonSerializer.Serialize(
            new
            {
                file = export.Path,
                rows = counts.All,
                accepted = counts.Accepted,
                corrected = counts.Corrected,
                quarantined = counts.Quarantined,
                sensors = export.Sensors.Count,
                from = Rfc3339.Text(export.From),
                to = Rfc3339.Text(export.To),
            },
            JsonSerializerOptions.Web)
        : $"{export.Path}: {counts.All} rows of {export.Sensors.Count} sensors, {counts.Corrected} corrected, {counts.Quarantined} set aside.");

    private static IReadOnlyList<Sensor> Chosen(Cell cell, string[] wanted, List<string> problems)
    {
        foreach (var id in wanted.Where(id => cell.IndexOfSensor(id) < 0))
        {
            problems.Add($"--sensor {id}: is not in the plant file; {NearestNames.Hint(id, [.. cell.Sensors.Select(sensor => sensor.Id)])}");
        }

        return wanted.Length == 0 ? cell.Sensors : [.. cell.Sensors.Where(sensor => wanted.Contains(sensor.Id))];
    }

    private static DateTimeOffset Time(string option, string? text, long otherwise, List<string> problems)
    {
        if (text is null)
        {
            return DateTimeOffset.FromUnixTimeMilliseconds(otherwise);
        }

        if (Rfc3339.TryParse(Encoding.UTF8.GetBytes(text), out var time))
        {
            return time;
        }

        problems.Add($"{option} {text}: a time with its offset is allowed, such as 2026-01-10T08:00:00Z.");
        return default;
    }
}
