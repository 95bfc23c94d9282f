using System.CommandLine;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard import</c>: readings from files into the store; stopped, the same command goes on.</summary>
internal static class ImportCommand
{
    private static readonly Argument<string[]> Files = new("FILE")
    {
        Description = "CSV, plain or gzip (time,sensor,value,unit, or as export writes it), or Parquet as export writes it.",
        Arity = ArgumentArity.OneOrMore,
    };

    private static readonly Option<bool> SkipBad = new("--skip-bad") { Description = "Passes over bad rows, counts and lists them, instead of stopping at the first." };

    public static Command Create()
    {
        var command = new Command("import", "Brings readings from files into the store; a row that is there already changes nothing. "
            + "Stopped by a bad row or by hand, the same command goes on where it ended. Also while a worker runs.\n\n"
            + "Example: climateguard import --plant config/plant.yaml january.csv.gz february.csv.gz")
        {
            CommandLine.Plant, CommandLine.SettingsFile, SkipBad, Files,
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

        var files = parsed.GetRequiredValue(Files);
        if (files.FirstOrDefault(file => !File.Exists(file)) is { } absent)
        {
            return CommandLine.Refuse("import", $"{absent}: there is no such file. Nothing was imported.");
        }

        try
        {
            await using var store = ReadingStoreAtHand.Open(given.Settings, given.Cell);
            using var book = ImportBook.Open(store.Folder);
            return book is null
                ? CommandLine.Refuse("import", $"another import into {store.Folder} runs; wait for its end. Nothing was imported.", CommandLine.Failed)
                : await EachAsync(files, store, new ReadingsImport(store.Readings, given.Cell, book, TimeProvider.System) { SkipBad = parsed.GetValue(SkipBad) },
                    parsed.GetValue(CommandLine.Json), cancellation);
        }
        catch (StoreUnavailableException unavailable)
        {
            return CommandLine.Refuse("import", $"{unavailable.Message} The same command goes on where this one ended.", CommandLine.Failed);
        }
        catch (UnreadableFileException unreadable)
        {
            return CommandLine.Refuse("import", unreadable.Message);
        }
    }

    private static async Task<int> EachAsync(
        string[] files, ReadingStoreAtHand store, ReadingsImport import, bool json, CancellationToken cancellation)
    {
        foreach (var file in files)
        {
            var before = store.RowsWritten();
            ImportResult result;
            using (var progress = new ProgressLine(file))
            {
                result = await import.RunAsync(file, step => progress.Show(step.Doing, step.Share, step.Rows), cancellation);
            }

            var waits = await store.SettleAsync(cancellation);
            Say(result, store.RowsWritten() - before, waits, json);
            if (!result.Done || waits is not null)
            {
                return result.Problem is null ? CommandLine.Failed : CommandLine.BadInput;
            }
        }

        return CommandLine.Done;
    }

    private static void Say(ImportResult result, long written, string? waits, bool json)
    {
        foreach (var skipped in result.SkippedRows)
        {
            Console.Error.WriteLine($"passed over: {skipped}");
        }

        if (result.Problem is { } problem)
        {
            Console.Error.WriteLine(problem);
        }

        if (waits is not null)
        {
            Console.Error.WriteLine(waits);
        }

        Console.Out.WriteLine(json ? JsonSerializer.Serialize(
            new
            {
                file = result.Path,
                done = result.Done,
                rows = result.Rows,
                written,
                accepted = result.Accepted,
                corrected = result.Corrected,
                quarantined = result.Quarantined,
                withoutValue = result.WithoutValue,
                skipped = result.Skipped,
                goesOnAfterLine = result.GoesOnAfterLine,
                problem = result.Problem,
                waits,
            },
            JsonSerializerOptions.Web) : Sentence(result, written));
    }

    private static string Sentence(ImportResult result, long written)
    {
        if (result is { Done: true, Rows: 0, GoesOnAfterLine: > 0 })
        {
            return $"{result.Path}: was imported before; nothing changed.";
        }

        var since = result.GoesOnAfterLine > 0 ? $" after line {result.GoesOnAfterLine}" : "";
        var without = result.WithoutValue > 0 ? $", {result.WithoutValue} without a value passed over" : "";
        var skipped = result.Skipped > 0 ? $", {result.Skipped} bad rows passed over" : "";
        var sum = $"{result.Path}: {result.Rows} rows read{since}, {written} of them new, {result.Corrected} corrected, {result.Quarantined} set aside{without}{skipped}.";
        return result.Done ? sum
            : result.Problem is not null ? $"{sum} The rows before the bad one are in; mend it and the same command goes on, or pass over bad rows with --skip-bad."
            : $"{sum} Stopped; the same command goes on.";
    }
}
