using System.Diagnostics;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Worker.Hosting;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Demo;

/// <summary>The demo as one process: it lives through what lies before, then shows the story at its speed.</summary>
internal static class DemoRun
{
    public static async Task<int> UntilStoppedAsync(DemoWishes wishes, Cell cell, PlantFileResult plant, CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-demo-");
        await using var broker = await EmbeddedBroker.StartAsync();
        var world = wishes.World(cell);
        var from = wishes.From(cell);
        var clock = new FastClock(from, wishes.Speed);
        var desk = new DemoDesk(world, wishes.Speed, wishes.Inspection(cell, folder.FullName));
        var url = $"http://127.0.0.1:{wishes.Port}";
        var app = Composition.Build(Plan(wishes, cell, plant, clock) with { Broker = new BrokerSettings { Port = broker.Port }, StorageFolder = folder.FullName, Urls = [url], BeforeDeciding = LiveThroughAsync }, services =>
        {
            services.AddSingleton(desk);
            services.AddHostedService(_ => new CellPublisher(world, desk, clock, broker.Port));
            services.AddHostedService(_ => new InspectionClerk(desk, new Uri(url)));
            services.AddHostedService(provider => new SecondWorker(desk, provider.GetRequiredService<SqliteLedger>(), clock));
        });

        async Task LiveThroughAsync(IServiceProvider services, CancellationToken stopping)
        {
            await PastAsync(world, from, desk, services, stopping);
            clock.Begin();
            desk.Begin();
        }

        try
        {
            return await HostRun.UntilStoppedAsync(app, Greeting(url, broker.Port, cell.Id, wishes.Speed), cancellation);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static WorkerPlan Plan(DemoWishes wishes, Cell cell, PlantFileResult plant, FastClock clock) => new()
    {
        Cell = cell,
        ConfigVersion = plant.ConfigVersion,
        PlantFile = wishes.PlantFile,
        PlantText = plant.Text,
        Materials = plant.Materials,
        Broker = new BrokerSettings(),
        StorageFolder = "",
        Urls = [],
        CellTime = clock,
        Tick = TimeSpan.FromMilliseconds(250) * wishes.Speed,
    };

    // The pages are open meanwhile; the demo page and the console say how far it is.
    private static async Task PastAsync(VirtualCell world, DateTimeOffset from, DemoDesk desk, IServiceProvider services, CancellationToken cancellation)
    {
        if (world.Now >= from) return;
        var watch = Stopwatch.StartNew();
        var days = (from - world.Now).TotalDays;
        void Tell(double share)
        {
            desk.Past = FormattableString.Invariant($"The {days:0.#} days before are lived through first: {100 * share:0} % after {watch.Elapsed.TotalSeconds:0} s.");
            Console.Error.WriteLine("  " + desk.Past);
        }

        Tell(0);
        await new LivedPast(world, services.GetRequiredService<WorkerPlan>().Plant, Composition.Ports(services)).LiveAsync(from, Tell, cancellation);
        Tell(1);
        desk.Past = null;
    }

    private static string Greeting(string url, int brokerPort, string cell, double speed) => FormattableString.Invariant(
        $"""

          The demo is running, {speed:0.#} times faster than the clock. Open {url}
          Make something happen:  {url}/demo
          Listen in:  mosquitto_sub -i listener -h 127.0.0.1 -p {brokerPort} -t 'cg/{cell}/#' -v
          Invented data. Stop with Ctrl+C.

        """);
}
