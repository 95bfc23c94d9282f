using System.CommandLine;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Hosting;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard run</c>: the worker with its pages.</summary>
internal static class RunCommand
{
    public static Command Create()
    {
        var command = new Command("run", "Watches the cell: readings and jobs from the broker, outlooks back to it, pages and API on this computer.\n\n"
            + "Example: CLIMATEGUARD_Broker__Host=192.0.2.10 climateguard run --plant config/plant.yaml")
        {
            CommandLine.Plant, CommandLine.SettingsFile,
        };
        command.SetAction((parsed, cancellation) => RunAsync(
            ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant)), parsed.GetValue(CommandLine.SettingsFile), cancellation));
        return command;
    }

    private static async Task<int> RunAsync(string plantFile, string? settingsFile, CancellationToken cancellation)
    {
        var settings = WorkerSettings.Read(settingsFile);
        var plant = PlantFileReader.Read(plantFile);
        string[] problems = [.. plant.Problems.Select(problem => problem.ToString()), .. settings.Problems()];
        if (plant.Cell is not { } cell || problems.Length > 0)
        {
            return CommandLine.Refuse(problems);
        }

        var app = Composition.Build(new WorkerPlan
        {
            Cell = cell,
            ConfigVersion = plant.ConfigVersion,
            PlantFile = plantFile,
            PlantText = plant.Text,
            Materials = plant.Materials,
            FollowsPlantFile = true,
            SettingsFile = WorkerSettings.PathOf(settingsFile),
            Broker = settings.Broker,
            StorageFolder = settings.StoragePath,
            Influx = settings.InfluxInUse,
            Storage = settings.Storage,
            Urls = settings.Urls,
            CellTime = TimeProvider.System,
            Notices = settings.Notices,
        });
        return await HostRun.UntilStoppedAsync(app, $"cell {cell.Id}: pages at {settings.Urls[0]}", cancellation);
    }
}
