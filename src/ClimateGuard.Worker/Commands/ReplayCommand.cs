using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Edges.Replay;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard replay</c>: the pipeline of <c>run</c> in event time from files.</summary>
internal static class ReplayCommand
{
    private static readonly Option<string> Readings = new("--readings")
    {
        Description = "Readings as CSV (time,sensor,value,unit; plain or gzip, any order) or Parquet.", HelpName = "FILE", Required = true,
    };

    private static readonly Option<string?> Events = new("--events") { Description = "Events as JSON lines (events.jsonl).", HelpName = "FILE" };

    private static readonly Option<string> Out = new("--out") { Description = "The file to write, JSON lines.", HelpName = "FILE", Required = true };

    private static readonly Option<double?> Every = new("--every")
    {
        Description = "An outlook of each machine at least so often, in seconds of event time (1 to 86400).", HelpName = "SECONDS",
    };

    public static Command Create()
    {
        var command = new Command("replay", "Plays readings and events of files through the pipeline of run, in event time, as fast as it can: a line for each "
            + "change of an outlook, answer and alert. The same files give the same bytes. Stopped, the same command goes on.\n\n"
            + "Example: climateguard replay --plant config/plant.yaml --readings week.csv.gz --events events.jsonl --out week.jsonl")
        {
            CommandLine.Plant, Readings, Events, Out, Every,
        };
        command.SetAction((parsed, cancellation) => RunAsync(parsed, cancellation));
        return command;
    }

    private static async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var plant = PlantFileReader.Read(ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant)));
        if (plant.Cell is not { } cell)
        {
            return CommandLine.Refuse(plant.Problems.Select(problem => problem.ToString()));
        }

        var every = parsed.GetValue(Every);
        if (every is < 1 or > 86_400 or double.NaN)
        {
            return CommandLine.Refuse("replay", "--every: 1 to 86400 seconds are allowed.");
        }

        return await ReplayAsync(
            new ReplayQuestion
            {
                Cell = cell,
                ConfigVersion = plant.ConfigVersion,
                Readings = parsed.GetRequiredValue(Readings),
                Events = parsed.GetValue(Events),
                Out = parsed.GetRequiredValue(Out),
                Every = every is { } seconds ? TimeSpan.FromSeconds(seconds) : null,
            },
            parsed.GetValue(CommandLine.Json),
            cancellation);
    }

    private static async Task<int> ReplayAsync(ReplayQuestion question, bool json, CancellationToken cancellation)
    {
        try
        {
            var begin = Stopwatch.GetTimestamp();
            ReplayResult result;
            using (var progress = new ProgressLine(question.Readings))
            {
                result = await ReplayRun.RunAsync(question with { Progress = progress.Show }, cancellation);
            }

            Console.Out.WriteLine(json ? Json(question, result) : Sentence(question, result, Stopwatch.GetElapsedTime(begin)));
            return result.Done ? CommandLine.Done : CommandLine.Failed;
        }
        catch (Exception wrong) when (wrong is UnreadableFileException or StoreUnavailableException)
        {
            return CommandLine.Refuse("replay", wrong.Message);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            return CommandLine.Refuse("replay", "stopped while the files were read; nothing was written.", CommandLine.Failed);
        }
    }

    private static string Json(ReplayQuestion question, ReplayResult result) => JsonSerializer.Serialize(
        new
        {
            file = question.Out,
            done = result.Done,
            readings = result.Readings,
            withoutValue = result.WithoutValue,
            events = result.Events,
            lines = result.Lines,
            from = result.From,
            to = result.To,
            goesOnAfter = result.GoesOnAfter,
        },
        JsonSerializerOptions.Web);

    private static string Sentence(ReplayQuestion question, ReplayResult result, TimeSpan elapsed)
    {
        var pace = result is { From: { } from, To: { } to } && result.GoesOnAfter is null && elapsed > TimeSpan.Zero
            ? string.Create(CultureInfo.InvariantCulture, $", {(to - from) / elapsed:0} times real time") : "";
        var since = result.GoesOnAfter is { } moment ? $" after {moment.UtcDateTime:u}" : "";
        var without = result.WithoutValue > 0 ? $", {result.WithoutValue} without a value passed over" : "";
        var sum = $"{question.Out}: {result.Lines} lines from {result.Readings} readings{without} and {result.Events} events{since}{pace}.";
        return result.Done ? sum : $"{sum} Stopped; the same command goes on.";
    }
}
