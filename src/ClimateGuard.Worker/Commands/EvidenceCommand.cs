using System.CommandLine;
using System.Security.Cryptography;
using System.Text;
using ClimateGuard.Edges.Board;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
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

    private static readonly Option<string?> Report = new("--report")
    {
        Description = "Write the board report of --serial to this file; its ending says the form: .pdf, .html or .json.", HelpName = "FILE",
    };

    public static Command Create()
    {
        var command = new Command("evidence", "Per serial and feature: did temperature cause the deviation? The verdict with its numbers, from the stored readings.\n\n"
            + "Example: climateguard evidence --plant config/plant.yaml --readings week.csv.gz --events events.jsonl --results results.csv")
        {
            CommandLine.Plant, Readings, Events, Results, Device, Serial, Report,
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

        if (parsed.GetValue(Report) is { } report && (parsed.GetValue(Serial) is null || Path.GetExtension(report) is not (".pdf" or ".html" or ".json")))
        {
            return CommandLine.Refuse("evidence", "--report: a file ending in .pdf, .html or .json is allowed, with --serial.");
        }

        try
        {
            return await WeighAsync(parsed, plant, cell, cancellation);
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

    private static async Task<int> WeighAsync(ParseResult parsed, PlantFileResult plant, Cell cell, CancellationToken cancellation)
    {
        var results = parsed.GetRequiredValue(Results);
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
        if (parsed.GetValue(Report) is { } file)
        {
            return await WriteAsync(data, parsed.GetValue(Serial)!, file, cancellation);
        }

        return Say(data, import, parsed.GetValue(Serial), parsed.GetValue(CommandLine.Json));
    }

    private static async Task<int> WriteAsync(BoardData data, string serial, string file, CancellationToken cancellation)
    {
        var bytes = Path.GetExtension(file) switch
        {
            ".pdf" => SerialReport.Pdf(data, serial),
            ".html" => SerialReport.Html(data, serial),
            _ => SerialReport.Json(data, serial),
        };
        if (bytes is null)
        {
            return NothingOf(serial);
        }

        await File.WriteAllBytesAsync(file + ".part", bytes, cancellation);
        File.Move(file + ".part", file, overwrite: true);
        Console.Out.WriteLine($"{file}: the report of serial {serial}, {bytes.Length} bytes.");
        return CommandLine.Done;
    }

    private static int NothingOf(string serial) => CommandLine.Refuse("evidence", $"--serial {serial}: no inspected value of it belongs to a known piece of work.");

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
                return NothingOf(serial);
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
