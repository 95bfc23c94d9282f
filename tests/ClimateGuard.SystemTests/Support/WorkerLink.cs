using System.Diagnostics;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.SystemTests.Support;

/// <summary>The MQTT edge as the worker has it, without the rest of the worker.</summary>
public sealed class WorkerLink : IAsyncDisposable
{
    public WorkerLink(BrokerSettings settings, Cell? cell = null)
    {
        var topics = new Topics("cell4");
        Cell = cell ?? SmallCell;
        Link = new BrokerLink(settings, topics, new WorkerIdentity("0.1.0", "plant-1"), TimeProvider.System, Log.For<BrokerLink>());
        Readings = new MqttReadings(
            Link, Cell, new TopicMap(Cell, settings.ReadingFilters), TimeProvider.System, Log.For<MqttReadings>());
        Outlooks = new MqttOutlooks(Link, TimeProvider.System, Log.For<MqttOutlooks>());
    }

    public static Cell SmallCell { get; } = new(new CellDescription
    {
        Id = "cell4",
        Name = "test cell",
        Zones = [],
        Sensors =
        [
            new Sensor { Id = "air/a1", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air },
            new Sensor { Id = "m1/coolant", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Coolant, Unit = "F" },
            new Sensor { Id = "door", Quantity = SensorQuantity.Contact, Place = SensorPlace.Door, Topic = "hall/doors/roller" },
        ],
    });

    public Cell Cell { get; }

    public BrokerLink Link { get; }

    public MqttReadings Readings { get; }

    public MqttOutlooks Outlooks { get; }

    public LineLog Log { get; } = new();

    public static BrokerSettings Settings(int port) => new() { Port = port };

    public async Task StartAndConnectAsync()
    {
        await Link.StartAsync(CancellationToken.None);
        await UntilAsync(state => state.Connected, "connected");
    }

    public async Task UntilAsync(Func<BrokerState, bool> wanted, string what)
    {
        var patience = Stopwatch.StartNew();
        while (!wanted(Link.State))
        {
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(20), $"never {what}: {Link.State}; log: {string.Join(" | ", Log.Lines)}");
            await Task.Delay(10);
        }
    }

    public async Task<Arrival> NextAsync()
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(15));
        return await Readings.Arrivals.ReadAsync(patience.Token);
    }

    public async Task<IReadOnlyList<Arrival>> NextAsync(int count)
    {
        var arrivals = new List<Arrival>();
        while (arrivals.Count < count)
        {
            arrivals.Add(await NextAsync());
        }

        return arrivals;
    }

    public ValueTask AcknowledgeAsync(params Arrival[] arrivals) => Readings.AcknowledgeAsync(arrivals, CancellationToken.None);

    public ValueTask DisposeAsync() => Link.DisposeAsync();
}
