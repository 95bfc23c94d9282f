using System.CommandLine;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Edges.Replay;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard policy try</c>: history again under another policy, and what that would change.</summary>
internal static class PolicyCommand
{
    private static readonly Option<string?> With = new("--with") { Description = "A plant file whose policies are tried; the rest of it is not used.", HelpName = "FILE" };

    private static readonly Option<string[]> Set = new("--set") { Description = "A policy to try, such as probability.hold=0.4; may stand more than once.", HelpName = "KEY=VALUE" };

    private static readonly Option<string> Readings = new("--readings") { Description = "Readings as CSV (plain or gzip) or Parquet.", HelpName = "FILE", Required = true };

    private static readonly Option<string> Events = new("--events") { Description = "Events as JSON lines (events.jsonl).", HelpName = "FILE", Required = true };

    private static readonly Option<string?> Results = new("--results") { Description = "Inspection results as CSV (results.csv).", HelpName = "FILE" };

    public static Command Create()
    {
        var trial = new Command("try", "Replays history under the policies of the plant file and under others, and says which answers and levels would differ, with the score "
            + "of both. People did what they were told then: what they would have done under the other policy is not known.\n\n"
            + "Example: climateguard policy try --readings week.csv.gz --events events.jsonl --set probability.hold=0.4")
        {
            CommandLine.Plant, With, Set, Readings, Events, Results,
        };
        trial.SetAction((parsed, cancellation) => RunAsync(parsed, cancellation));
        return new Command("policy", "The limits between go, measure and hold.") { trial };
    }

    private static async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        if (Read(ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant))) is not { } plant || Other(parsed, plant.Cell) is not { } policies)
        {
            return CommandLine.BadInput;
        }

        try
        {
            var other = new Cell(plant.Cell.Description with { Policies = policies });
            if (ResultsOf(parsed.GetValue(Results), plant.Cell) is not { } results)
            {
                return CommandLine.BadInput;
            }

            var question = new ReplayQuestion
            {
                Cell = plant.Cell, ConfigVersion = plant.Version, Readings = parsed.GetRequiredValue(Readings), Events = parsed.GetRequiredValue(Events), Out = "",
            };
            var (comparison, from, to) = await PolicyTrial.RunAsync(question, other, plant.Version + "+tried", results, cancellation);
            var said = new PolicyText(comparison, ScoreReport.Of(comparison.Before, plant.Cell, from, to), ScoreReport.Of(comparison.After, other, from, to));
            Console.Out.WriteLine(parsed.GetValue(CommandLine.Json) ? said.Json() : said.ForPeople());
            return CommandLine.Done;
        }
        catch (Exception wrong) when (wrong is UnreadableFileException or StoreUnavailableException)
        {
            CommandLine.Refuse("policy", wrong.Message);
            return CommandLine.BadInput;
        }
    }

    private static (Cell Cell, string Version)? Read(string file)
    {
        var plant = PlantFileReader.Read(file);
        foreach (var problem in plant.Problems)
        {
            Console.Error.WriteLine(problem);
        }

        return plant.Cell is { } cell ? (cell, plant.ConfigVersion) : null;
    }

    private static Policies? Other(ParseResult parsed, Cell cell)
    {
        var (file, changes) = (parsed.GetValue(With), parsed.GetValue(Set) ?? []);
        if (file is null && changes.Length == 0)
        {
            CommandLine.Refuse("policy", "--with FILE or --set KEY=VALUE is needed: what shall be tried?");
            return null;
        }

        if ((file is null ? cell : Read(file)?.Cell) is not { } stated)
        {
            return null;
        }

        var (policies, problem) = PolicySettings.With(stated.Description.Policies, changes);
        if (problem is not null)
        {
            CommandLine.Refuse("policy", problem);
        }

        return policies;
    }

    private static IReadOnlyList<InspectionValue>? ResultsOf(string? file, Cell cell)
    {
        if (file is null)
        {
            return [];
        }

        if (!File.Exists(file))
        {
            throw new UnreadableFileException($"{file}: there is no such file.");
        }

        var (values, problems) = ResultsFileReader.Parse(File.ReadAllText(file), cell);
        foreach (var problem in problems)
        {
            CommandLine.Refuse("policy", $"{file}: {problem}");
        }

        return problems.Count > 0 ? null : values;
    }
}
