using System.CommandLine;
using System.Security.Cryptography;
using System.Text;
using ClimateGuard.Edges.Board;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard evidence</c>: did temperature cause this deviation? Per serial and feature the verdict with its numbers.</summary>
internal static class EvidenceCommand
{
    private static readonly Option<string> Readings = new("--readings") { Description = "Readings as CSV (plain or gzip, any order) or Parquet.", HelpName = "FILE", Required = true };

    private static readonly Option<string> Events = new("--events") { Description = "Events as JSON lines (events.jsonl).", HelpName = "FILE", Required = true };

    private static readonly Option<string> Results = new("--results") { Description = "Inspection results, QIF 3.0 or CSV.", HelpName = "FILE", Required = true };

    private static readonly Option<string?> Device = new("--device") { Description = "The mapping of the inspection device, JSON.", HelpName = "FILE" };

    private static readonly Option<string?> Serial = new("--serial") { Description = "Only this serial.", HelpName = "SERIAL" };

    public static Command Create()
    {
        var command = new Command("evidence", "Per serial and feature: did temperature cause the deviation? The verdict with its numbers, from the stored readings.\n\n"
            + "Example: climateguard evidence --plant config/plant.yaml --readings week.csv.gz --events events.jsonl --results results.csv")
        {
            CommandLine.Plant, Readings, Events, Results, Device, Serial,
        };
        command.SetAction(RunAsync);
        return command;
    }

    private static async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var plant = PlantFileReader.Read(ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant)));
        if (plant.Cell is not { } cell)
        {
            return CommandLine.Refuse(plant.Problems.Select(problem => problem.ToString()));
        }

        var results = parsed.GetRequiredValue(Results);
        try
        {
            if (Mapping(parsed.GetValue(Device), out var mapping) is { } wrong)
            {
                return CommandLine.Refuse(wrong);
            }

            var bytes = await File.ReadAllBytesAsync(results, cancellation);
            var import = InspectionFile.Read(bytes, cell, mapping);
            if (import.Problems.Count > 0)
            {
                return CommandLine.Refuse(import.Problems.Select(problem => $"{results}: {problem}"));
            }

            using var progress = new ProgressLine(results);
            var data = await EvidenceRun.RunAsync(
                new EvidenceFiles
                {
                    Cell = cell, ConfigVersion = plant.ConfigVersion, Readings = parsed.GetRequiredValue(Readings), Events = parsed.GetRequiredValue(Events),
                    Values = import.Values, ResultsSha256 = Convert.ToHexStringLower(SHA256.HashData(bytes)),
                },
                progress.Show, cancellation);
            return Say(data, import, parsed.GetValue(Serial), parsed.GetValue(CommandLine.Json));
        }
        catch (Exception wrong) when (wrong is UnreadableFileException or StoreUnavailableException or IOException or UnauthorizedAccessException)
        {
            return CommandLine.Refuse("evidence", wrong.Message);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            return CommandLine.Refuse("evidence", "stopped; nothing was written.", CommandLine.Failed);
        }
    }

    private static IEnumerable<string>? Mapping(string? file, out DeviceMapping? mapping)
    {
        mapping = null;
        if (file is null)
        {
            return null;
        }

        (mapping, var problems) = DeviceMappingReader.Read(File.ReadAllBytes(file));
        return problems.Count > 0 ? problems.Select(problem => $"{file}: {problem}") : null;
    }

    private static int Say(BoardData data, InspectionImport import, string? serial, bool json)
    {
        if (serial is not null)
        {
            data = data with { Answer = data.Answer with { Features = [.. data.Answer.Features.Where(one => one.Serial == serial)] } };
            if (data.Answer.Features.Count == 0)
            {
                return CommandLine.Refuse("evidence", $"--serial {serial}: no inspected value of it has a known piece of work.");
            }
        }

        foreach (var note in json ? [] : import.Notes)
        {
            Console.Out.WriteLine($"note: {note}");
        }

        Console.Out.WriteLine(json ? Encoding.UTF8.GetString(EvidenceJson.ToUtf8(data)) : EvidenceText.Of(data));
        return CommandLine.Done;
    }
}
