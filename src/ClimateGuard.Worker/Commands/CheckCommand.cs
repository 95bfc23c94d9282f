using System.CommandLine;
using System.Text.Json;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard check</c>: every error of plant file and settings, with file, line and what is allowed.</summary>
internal static class CheckCommand
{
    public static Command Create()
    {
        var command = new Command("check", "Validates plant file and settings; every error with file, line and what is allowed.\n\n"
            + "Example: climateguard check --plant config/plant.yaml") { CommandLine.Plant, CommandLine.SettingsFile };
        command.SetAction(parsed => Run(
            ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant)), parsed.GetValue(CommandLine.SettingsFile), parsed.GetValue(CommandLine.Json)));
        return command;
    }

    private static int Run(string plantFile, string? settingsFile, bool json)
    {
        var plant = PlantFileReader.Read(plantFile);
        var settings = SettingsProblems(settingsFile);
        var good = plant.Cell is not null && settings.Count == 0;
        if (json)
        {
            Console.Out.WriteLine(JsonSerializer.Serialize(
                new
                {
                    ok = good,
                    plant = plantFile,
                    configVersion = plant.ConfigVersion,
                    problems = plant.Problems.Select(p => new { file = p.File, line = p.Line, column = p.Column, path = p.Path, message = p.Message })
                        .Concat(settings.Select(message => new { file = "settings", line = 0, column = 0, path = "", message })),
                },
                JsonSerializerOptions.Web));
        }
        else
        {
            Print(plantFile, plant, settings);
        }

        return good ? CommandLine.Done : CommandLine.BadInput;
    }

    private static void Print(string plantFile, PlantFileResult plant, IReadOnlyList<string> settings)
    {
        foreach (var problem in plant.Problems)
        {
            Console.Error.WriteLine(problem);
        }

        foreach (var problem in settings)
        {
            Console.Error.WriteLine(problem);
        }

        if (plant.Cell is { } cell)
        {
            Console.Out.WriteLine(
                $"{plantFile}: cell {cell.Id}, {cell.Machines.Count} machines, {cell.Parts.Count} parts, {cell.Sensors.Count} sensors, "
                + $"{cell.Description.Defaults.Count} defaults in use, version {plant.ConfigVersion}.");
        }
    }

    private static IReadOnlyList<string> SettingsProblems(string? file)
    {
        try
        {
            return WorkerSettings.Read(file).Problems();
        }
        catch (SettingsException wrong)
        {
            return [wrong.Message];
        }
    }
}
