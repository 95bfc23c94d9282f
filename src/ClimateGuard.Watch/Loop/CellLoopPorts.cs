using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Where a loop reads and writes.</summary>
public sealed record CellLoopPorts
{
    /// <summary>Where readings and events come from.</summary>
    public required IReadingSource Source { get; init; }

    /// <summary>The time series on disk.</summary>
    public required IReadingStore Readings { get; init; }

    /// <summary>The record of what was decided.</summary>
    public required ILedgerStore Ledger { get; init; }

    /// <summary>Who is told; each one's failure is its own.</summary>
    public required IReadOnlyList<IAlertChannel> Channels { get; init; }

    /// <summary>Writes an event as a ledger line.</summary>
    public required Func<CellEvent, LedgerLine> EventLine { get; init; }

    /// <summary>Writes a decision as a ledger line; null when it is not worth one.</summary>
    public required Func<Decision, LedgerLine?> DecisionLine { get; init; }

    /// <summary>Writes what a machine remembers.</summary>
    public required Func<MachineState, MachineCheckpoint> Checkpoint { get; init; }

    /// <summary>Reads what a machine remembered; null, after saying so, when it cannot be read.</summary>
    public required Func<MachineCheckpoint, MachineState?> State { get; init; }

    /// <summary>Reads an event from its ledger line; null when it cannot be read.</summary>
    public required Func<LedgerLine, CellEvent?> Event { get; init; }

    /// <summary>Reads a finding from its ledger line; null when it is none or cannot be read.</summary>
    public Func<LedgerLine, FindingCase?> Finding { get; init; } = static _ => null;

    /// <summary>Reads an excursion from its ledger line; null when it is none or cannot be read.</summary>
    public Func<LedgerLine, ZoneExcursion?> Excursion { get; init; } = static _ => null;

    /// <summary>
    /// Gives source and store another version of the plant file, after it came into force and before anything more is kept; waits until the store
    /// has it.
    /// </summary>
    public Func<PlantVersion, CancellationToken, ValueTask> UsePlant { get; init; } = static (_, _) => ValueTask.CompletedTask;

    /// <summary>Shows a snapshot to pages and HTTP.</summary>
    public required Action<CellSnapshot> Show { get; init; }
}

/// <summary>The pace of a loop.</summary>
public sealed record CellLoopOptions
{
    /// <summary>How often the machines are stepped when nothing happens, by the loop's clock.</summary>
    public TimeSpan Tick { get; init; } = TimeSpan.FromMilliseconds(250);

    /// <summary>The most arrivals taken in one round, in [1, 100 000].</summary>
    public int MostInBatch { get; init; } = 8192;

    /// <summary>How long readings may wait for others to be committed with them; events never wait. Zero for not at all.</summary>
    public TimeSpan Gather { get; init; } = TimeSpan.Zero;

    /// <summary>A machine at which nothing happened is stepped no sooner after its last step; zero: with each round.</summary>
    public TimeSpan LeastBetweenSteps { get; init; } = TimeSpan.Zero;

    /// <summary>How often the air is judged; null for what goes with <see cref="LeastBetweenSteps"/>.</summary>
    public AirPace? AirPace { get; init; }
}
