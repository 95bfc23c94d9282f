using System.CommandLine;
using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard config show</c>: a version of the plant file out of the ledger, to look at or to go back to.</summary>
internal static class ConfigCommand
{
    private static readonly Option<string?> Wanted = new("--version-id")
    {
        Description = "The version, as the ledger and the status topic name it; the newest in force when left out.", HelpName = "VERSION",
    };

    private static readonly Option<bool> MaterialsWanted = new("--materials") { Description = "The material library beside it instead." };

    public static Command Create()
    {
        var show = new Command("show", "Prints a plant file that was in force, byte for byte as the ledger keeps it. Put it in place of the plant file to go back to it.\n\n"
            + "Example: climateguard config show --version-id 3f2a90c1d5e7 > plant.yaml") { CommandLine.SettingsFile, Wanted, MaterialsWanted };
        show.SetAction((parsed, cancellation) => ShowAsync(
            parsed.GetValue(CommandLine.SettingsFile), parsed.GetValue(Wanted), parsed.GetValue(MaterialsWanted), parsed.GetValue(CommandLine.Json), cancellation));
        return new Command("config", "The versions of the plant file that were in force.\n\nExample: climateguard config show") { show };
    }

    private static async Task<int> ShowAsync(string? settingsFile, string? wanted, bool materials, bool json, CancellationToken cancellation)
    {
        try
        {
            using var view = SqliteLedgerView.Open(new SqliteStorage { Folder = WorkerSettings.Read(settingsFile).StoragePath });
            var lines = await view.ReadBackAsync(LedgerKinds.Config, null, long.MaxValue, LedgerReading.MostLines, cancellation);
            foreach (var line in lines)
            {
                if (PlantJson.Read(line.Line.Json) is { } kept && (wanted ?? kept.Version) == kept.Version)
                {
                    return await PrintAsync(kept, materials, json);
                }
            }

            await Console.Error.WriteLineAsync(
                $"climateguard config show: {view.Path} has no version {wanted ?? "at all"} of the plant file; GET /api/v1/ledger?kind={LedgerKinds.Config} lists them.");
        }
        catch (StoreUnavailableException unavailable)
        {
            await Console.Error.WriteLineAsync($"climateguard config show: {unavailable.Message}");
        }

        return CommandLine.BadInput;
    }

    private static async Task<int> PrintAsync((string Version, string Text, string? Materials) kept, bool materials, bool json)
    {
        if (json)
        {
            await Console.Out.WriteLineAsync(JsonSerializer.Serialize(
                new { version = kept.Version, text = kept.Text, materials = kept.Materials }, JsonSerializerOptions.Web));
            return CommandLine.Done;
        }

        if (materials && kept.Materials is null)
        {
            await Console.Error.WriteLineAsync($"climateguard config show: version {kept.Version} used the material library of the program; there was none beside it.");
            return CommandLine.BadInput;
        }

        await Console.Out.WriteAsync(materials ? kept.Materials : kept.Text);
        return CommandLine.Done;
    }
}
