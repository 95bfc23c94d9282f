using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Plant;
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
    public string PlantText => File.ReadAllText(PlantFile);

    public required BrokerSettings Broker { get; init; }

    public required string StorageFolder { get; init; }

    public required IReadOnlyList<string> Urls { get; init; }

    /// <summary>The clock of the cell: the wall clock, or a faster one in the demo.</summary>
    public required TimeProvider CellTime { get; init; }

    /// <summary>Shadow mode: everything is decided and kept, and nothing is sent to machines.</summary>
    public bool Shadow => Broker.ToPeopleOnly;

    /// <summary>Who is told, and when; nobody by default.</summary>
    public NoticeSettings Notices { get; init; } = new();

    /// <summary>How often the machines are stepped, by the cell's clock.</summary>
    public TimeSpan Tick { get; init; } = TimeSpan.FromMilliseconds(250);

    /// <summary>How long the lease of the cell holds without a renewal, in real time: so long the cell waits for the next worker after a crash.</summary>
    public TimeSpan LeaseTerm { get; init; } = TimeSpan.FromSeconds(10);
}
