using System.CommandLine;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Worker.Demo;
using ClimateGuard.Worker.Hosting;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard demo</c>: broker, virtual cell, worker and pages in one process; nothing to install.</summary>
internal static class DemoCommand
{
    private const int UsualPort = 5080;
    private const double UsualSpeed = 60;

    private static readonly Option<double> Speed = new("--speed")
    {
        Description = "How many times faster than the wall clock the virtual cell runs, 1 to 600.", DefaultValueFactory = _ => UsualSpeed,
    };

    private static readonly Option<int> Port = new("--port")
    {
        Description = "The port of the pages.", DefaultValueFactory = _ => UsualPort,
    };

    private static readonly Option<int> Seed = new("--seed") { Description = "The seed of the virtual cell.", DefaultValueFactory = _ => 1 };

    private static readonly Option<string> Story = new("--story")
    {
        Description = "What happens: trip (a chiller, a door, a cold blank, over and over) or week (a week with thirteen incidents from Monday 00:00).",
        DefaultValueFactory = _ => "trip",
    };

    public static Command Create()
    {
        var command = new Command("demo", "Shows the whole job with an invented cell: embedded broker and store, a virtual cell, the worker and its pages.\n\n"
            + "Example: climateguard demo --speed 60 --port 5080") { Speed, Port, Seed, Story, CommandLine.Plant };
        command.SetAction((parsed, cancellation) => RunAsync(
            new Wishes(parsed.GetValue(Speed), parsed.GetValue(Port), parsed.GetValue(Seed), parsed.GetValue(Story)!, ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant))), cancellation));
        return command;
    }

    private static async Task<int> RunAsync(Wishes wishes, CancellationToken cancellation)
    {
        if (wishes.Speed is not (>= 1 and <= 600) || wishes.Port is < 1 or > 65535)
        {
            await Console.Error.WriteLineAsync("climateguard demo: --speed takes 1 to 600, --port 1 to 65535.");
            return CommandLine.BadInput;
        }

        if (wishes.Story is not ("trip" or "week"))
        {
            await Console.Error.WriteLineAsync($"climateguard demo: --story is \"{wishes.Story}\"; allowed: trip, week. Nothing was started.");
            return CommandLine.BadInput;
        }

        var plant = PlantFileReader.Read(wishes.PlantFile);
        if (plant.Cell is not { } cell)
        {
            foreach (var problem in plant.Problems)
            {
                await Console.Error.WriteLineAsync(problem.ToString());
            }

            return CommandLine.BadInput;
        }

        return await ShowAsync(wishes, cell, plant, cancellation);
    }

    private static async Task<int> ShowAsync(Wishes wishes, Cell cell, PlantFileResult plant, CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-demo-");
        await using var broker = await EmbeddedBroker.StartAsync();
        var story = wishes.Story == "week"
            ? DemoScripts.Week(cell, wishes.Seed)
            : new VirtualCellOptions(wishes.Seed, DemoScripts.ThursdayMorning(cell), DemoScripts.CoolantTrip(cell));
        var virtualCell = new VirtualCell(cell, story);
        var clock = new FastClock(story.Start, wishes.Speed);
        var url = $"http://127.0.0.1:{wishes.Port}";
        var plan = new WorkerPlan
        {
            Cell = cell,
            ConfigVersion = plant.ConfigVersion,
            PlantFile = wishes.PlantFile,
            PlantText = plant.Text,
            Materials = plant.Materials,
            Broker = new BrokerSettings { Port = broker.Port },
            StorageFolder = folder.FullName,
            Urls = [url],
            CellTime = clock,
            Tick = TimeSpan.FromMilliseconds(250) * wishes.Speed,
        };
        var app = Composition.Build(plan, services => services.AddHostedService(_ => new CellPublisher(virtualCell, clock, broker.Port)));
        try
        {
            return await HostRun.UntilStoppedAsync(app, Greeting(url, broker.Port, cell.Id, wishes.Speed), cancellation);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string Greeting(string url, int brokerPort, string cell, double speed) => FormattableString.Invariant(
        $"""

          The demo is running, {speed:0.#} times faster than the clock. Open {url}
          Listen in:  mosquitto_sub -i listener -h 127.0.0.1 -p {brokerPort} -t 'cg/{cell}/#' -v
          Invented data. Stop with Ctrl+C.

        """);

    private sealed record Wishes(double Speed, int Port, int Seed, string Story, string PlantFile);
}
