using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Everything a worker needs to know before it starts.</summary>
internal sealed record WorkerPlan
{
    public required Cell Cell { get; init; }

    public required string ConfigVersion { get; init; }

    /// <summary>Where the plant file stands, for the ledger.</summary>
    public required string PlantFile { get; init; }

    /// <summary>The plant file as it was read, for the ledger.</summary>
    public required string PlantText { get; init; }

    /// <summary>The material library beside it, or null.</summary>
    public string? Materials { get; init; }

    /// <summary>Whether a changed plant file is taken while the cell runs.</summary>
    public bool FollowsPlantFile { get; init; }

    /// <summary>The settings file that was read, or null when there was none.</summary>
    public string? SettingsFile { get; init; }

    /// <summary>The version to begin with.</summary>
    public PlantVersion Plant => new(Cell, ConfigVersion) { File = PlantFile, Text = PlantText, Materials = Materials, By = FileOwner.Of(PlantFile) };

    public required BrokerSettings Broker { get; init; }

    public required string StorageFolder { get; init; }

    /// <summary>InfluxDB for the readings, or null for SQLite in the folder.</summary>
    public InfluxSettings? Influx { get; init; }

    /// <summary>How long readings are kept, and what is left to the ledger on a full disk.</summary>
    public StorageSettings Storage { get; init; } = new();

    public required IReadOnlyList<string> Urls { get; init; }

    /// <summary>The clock of the cell: the wall clock, or a faster one in the demo.</summary>
    public required TimeProvider CellTime { get; init; }

    /// <summary>Shadow mode: everything is decided and kept, and nothing is sent to machines.</summary>
    public bool Shadow => Broker.ToPeopleOnly;

    /// <summary>Who is told, and when; nobody by default.</summary>
    public NoticeSettings Notices { get; init; } = new();

    /// <summary>What is done before this worker asks for the lease, while its pages are open already; nothing except in the demo.</summary>
    public Func<IServiceProvider, CancellationToken, Task> BeforeDeciding { get; init; } = static (_, _) => Task.CompletedTask;

    /// <summary>How often the machines are stepped, by the cell's clock.</summary>
    public TimeSpan Tick { get; init; } = TimeSpan.FromMilliseconds(250);

    /// <summary>How long readings may wait for others to be committed with them, by the cell's clock.</summary>
    public TimeSpan Gather { get; init; } = TimeSpan.FromMilliseconds(15);

    /// <summary>How long the lease of the cell holds without a renewal, in real time: so long the cell waits for the next worker after a crash.</summary>
    public TimeSpan LeaseTerm { get; init; } = TimeSpan.FromSeconds(10);
}
