using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary>Plant file and settings of a verb that works on the store.</summary>
internal sealed record PlantAndSettings(Cell Cell, string ConfigVersion, WorkerSettings Settings)
{
    /// <summary>Reads both; null after every problem of the plant file was said on standard error.</summary>
    /// <exception cref="SettingsException">The settings cannot be used.</exception>
    public static PlantAndSettings? Read(string? plantFile, string? settingsFile)
    {
        var settings = WorkerSettings.Read(settingsFile);
        var plant = PlantFileReader.Read(ShippedFiles.Plant(plantFile));
        foreach (var problem in plant.Problems)
        {
            Console.Error.WriteLine(problem);
        }

        return plant.Cell is { } cell ? new PlantAndSettings(cell, plant.ConfigVersion, settings) : null;
    }
}
