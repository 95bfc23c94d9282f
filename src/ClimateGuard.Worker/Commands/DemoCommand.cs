using System.CommandLine;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Worker.Demo;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard demo</c>: broker, virtual cell, worker and pages in one process; nothing to install.</summary>
internal static class DemoCommand
{
    private const int UsualPort = 5080;
    private const double UsualSpeed = 60;

    // With it the disc of Thursday is out of tolerance after the override, as the story has it; with some others it is just inside.
    private const int UsualSeed = 7;

    private static readonly Option<double> Speed = new("--speed")
    {
        Description = "How many times faster than the wall clock the virtual cell runs, 1 to 600.", DefaultValueFactory = _ => UsualSpeed,
    };

    private static readonly Option<int> Port = new("--port")
    {
        Description = "The port of the pages.", DefaultValueFactory = _ => UsualPort,
    };

    private static readonly Option<int> Seed = new("--seed") { Description = "The seed of the virtual cell.", DefaultValueFactory = _ => UsualSeed };

    private static readonly Option<string> Story = new("--story")
    {
        Description = "What happens: trip (a chiller, a door, a cold blank, over and over) or week (a week with thirteen incidents from Monday 00:00).",
        DefaultValueFactory = _ => "trip",
    };

    private static readonly Option<string> History = new("--history")
    {
        Description = "21d: three weeks lie before the week of the story (its default); none: nothing does.", DefaultValueFactory = _ => "21d",
    };

    private static readonly Option<string?> From = new("--from")
    {
        Description = "The local time of the cell at which the week is joined, such as 2026-07-08T13:00; what lies before is lived through first.",
    };

    public static Command Create()
    {
        var command = new Command("demo", "Shows the whole job with an invented cell: embedded broker and store, a virtual cell, the worker and its pages.\n\n"
            + "Example: climateguard demo --speed 60 --port 5080\n"
            + "         climateguard demo --story week --from 2026-07-08T19:10") { Speed, Port, Seed, Story, History, From, CommandLine.Plant };
        command.SetAction((parsed, cancellation) => RunAsync(
            new DemoWishes(parsed.GetValue(Speed), parsed.GetValue(Port), parsed.GetValue(Seed), parsed.GetValue(Story)!, ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant)))
            {
                History = parsed.GetValue(History)!,
                FromText = parsed.GetValue(From),
            },
            cancellation));
        return command;
    }

    private static async Task<int> RunAsync(DemoWishes wishes, CancellationToken cancellation)
    {
        if (wishes.Problem() is { } problem)
        {
            await Console.Error.WriteLineAsync($"climateguard demo: {problem} Nothing was started.");
            return CommandLine.BadInput;
        }

        var plant = PlantFileReader.Read(wishes.PlantFile);
        if (plant.Cell is not { } cell)
        {
            foreach (var fault in plant.Problems)
            {
                await Console.Error.WriteLineAsync(fault.ToString());
            }

            return CommandLine.BadInput;
        }

        return await DemoRun.UntilStoppedAsync(wishes, cell, plant, cancellation);
    }
}
