using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard history backup</c>, <c>check</c> and <c>info</c>: the readings on disk, also while a worker writes them.</summary>
internal static class HistoryCommand
{
    private static readonly Option<string> Out = new("--out") { Description = "The folder to write; no files of a store may lie there.", HelpName = "FOLDER", Required = true };

    public static Command Create()
    {
        var backup = new Command("backup", "Copies the readings as they are at this moment. To go back: stop the worker, and put the files into Storage:Path.\n\n"
            + "Example: climateguard history backup --out /backup/2026-03-02") { CommandLine.SettingsFile, Out };
        backup.SetAction(parsed => Guarded(() => Backup(
            Folder(parsed.GetValue(CommandLine.SettingsFile)), parsed.GetRequiredValue(Out), parsed.GetValue(CommandLine.Json))));
        var check = new Command("check", "Reads every page and every block of every file; exit 0 when sound, 1 when one is damaged.\n\n"
            + "Example: climateguard history check") { CommandLine.SettingsFile };
        check.SetAction(parsed => Guarded(() => Check(Folder(parsed.GetValue(CommandLine.SettingsFile)), parsed.GetValue(CommandLine.Json))));
        var info = new Command("info", "Says how many readings and aggregates each file holds, of which time, and what they cost on disk.\n\n"
            + "Example: climateguard history info") { CommandLine.SettingsFile };
        info.SetAction(parsed => Guarded(() => Info(Folder(parsed.GetValue(CommandLine.SettingsFile)), parsed.GetValue(CommandLine.Json))));
        return new Command("history", "The readings on disk: a copy, a check, and what there is.") { backup, check, info };
    }

    private static string Folder(string? settingsFile) => WorkerSettings.Read(settingsFile).StoragePath;

    private static int Guarded(Func<int> work)
    {
        try
        {
            return work();
        }
        catch (StoreUnavailableException unavailable)
        {
            return CommandLine.Refuse("history", unavailable.Message);
        }
    }

    private static int Backup(string folder, string target, bool json)
    {
        var files = HistoryFiles.Backup(folder, target);
        Say(json, new { files }, $"{files.Count} files of {folder} were copied to {target}.");
        return CommandLine.Done;
    }

    private static int Check(string folder, bool json)
    {
        var files = HistoryFiles.Check(folder);
        var damaged = files.Where(file => file.Damage is not null).ToArray();
        Say(
            json,
            new { ok = damaged.Length == 0, files = files.Select(file => new { path = file.Path, damage = file.Damage }) },
            damaged.Length == 0
                ? $"{folder}: all {files.Count} files of the history are sound."
                : string.Join('\n', damaged.Select(file => $"{file.Path} is DAMAGED: {file.Damage}. Keep it, and put back the file of the last backup while the worker is stopped.")));
        return damaged.Length == 0 ? CommandLine.Done : CommandLine.Failed;
    }

    private static int Info(string folder, bool json)
    {
        var files = HistoryFiles.Info(folder);
        var (rows, bytes) = (files.Sum(file => file.Rows), files.Sum(file => file.Bytes));
        double? each = rows > 0 ? Math.Round((double)bytes / rows, 2) : null;
        var lines = files.Select(file => string.Create(
            CultureInfo.InvariantCulture,
            $"{Path.GetFileName(file.Path)}: {file.Rows} readings, {file.Minutes} minutes, {file.Quarters} quarters of an hour, {file.Bytes} bytes, {Moment(file.First)} to {Moment(file.Last)}"));
        var all = string.Create(CultureInfo.InvariantCulture, $"In all {rows} readings, {bytes} bytes{(each is { } cost ? $", {cost} bytes a reading" : "")}.");
        Say(
            json,
            new
            {
                rows,
                bytes,
                bytesPerRow = each,
                files = files.Select(file => new
                {
                    path = file.Path, rows = file.Rows, minutes = file.Minutes, quarters = file.Quarters, bytes = file.Bytes, first = Time(file.First), last = Time(file.Last),
                }),
            },
            string.Join('\n', [.. lines, all]));
        return CommandLine.Done;
    }

    private static DateTimeOffset? Time(long? moment) => moment is { } known ? DateTimeOffset.FromUnixTimeMilliseconds(known) : null;

    private static string Moment(long? moment) => Time(moment)?.UtcDateTime.ToString("u", CultureInfo.InvariantCulture) ?? "nothing";

    private static void Say(bool json, object content, string sentence) =>
        Console.Out.WriteLine(json ? JsonSerializer.Serialize(content, JsonSerializerOptions.Web) : sentence);
}
