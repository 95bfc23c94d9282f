using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What is known of the cell at one moment: immutable, read by pages and HTTP without locks.</summary>
public sealed record CellSnapshot
{
    /// <summary>The description in force.</summary>
    public required Cell Cell { get; init; }

    /// <summary>Version of the plant file in force.</summary>
    public required string ConfigVersion { get; init; }

    /// <summary>Since when that version is in force: its change, or the start of the worker.</summary>
    public DateTimeOffset ConfigSince { get; init; }

    /// <summary>The changed plant file that was refused and still stands, or null.</summary>
    public PlantRefused? RefusedPlant { get; init; }

    /// <summary>The moment.</summary>
    public required DateTimeOffset Time { get; init; }

    /// <summary>The machines, in the order of the plant file.</summary>
    public required IReadOnlyList<MachineSnapshot> Machines { get; init; }

    /// <summary>The sensors, in the order of the plant file.</summary>
    public required IReadOnlyList<SensorSnapshot> Sensors { get; init; }

    /// <summary>The air handlers, their findings, and the air of the zones.</summary>
    public AirSnapshot Air { get; init; } = AirSnapshot.Nothing;

    /// <summary>Counts since the start.</summary>
    public required LoopCounts Counts { get; init; }
}

/// <summary>One machine at one moment.</summary>
public sealed record MachineSnapshot
{
    /// <summary>The machine.</summary>
    public required Machine Machine { get; init; }

    /// <summary>Its outlook.</summary>
    public required Outlook Outlook { get; init; }

    /// <summary>What is loaded, or null.</summary>
    public JobLoaded? Job { get; init; }

    /// <summary>Local air in °C, or null when not known.</summary>
    public double? AirCelsius { get; init; }

    /// <summary>Coolant in °C, or null when there is none or it is not known.</summary>
    public double? CoolantCelsius { get; init; }

    /// <summary>Whether coolant runs over the part.</summary>
    public bool CoolantOn { get; init; }

    /// <summary>Permits and answers.</summary>
    public PermitBook Permits { get; init; } = PermitBook.Empty;

    /// <summary>The override given, or null.</summary>
    public ActiveOverride? Override { get; init; }

    /// <summary>The finish cut that runs, or null.</summary>
    public RunningCut? Cut { get; init; }

    /// <summary>The offset that a setter may set, once a span probe has shown which way it must go; null when there is none.</summary>
    public ProposedOffset? ProposedOffset { get; init; }

    /// <summary>The offset that a setter has set for this part, or null.</summary>
    public StandingOffset? Offset { get; init; }

    /// <summary>The recent past, one point a minute, oldest first.</summary>
    public required IReadOnlyList<TracePoint> Trace { get; init; }
}

/// <summary>One minute of a machine's recent past; NaN where not known, so that a gap stays a gap.</summary>
/// <param name="Time">When.</param>
/// <param name="AirCelsius">Local air.</param>
/// <param name="CoolantCelsius">Coolant.</param>
/// <param name="PartCelsius">Part.</param>
/// <param name="ScaleCelsius">Scale.</param>
/// <param name="Feature">The feature that decided, or null.</param>
/// <param name="EffectMicrometres">Its effect.</param>
/// <param name="BudgetMicrometres">Its budget.</param>
/// <param name="Level">The level.</param>
public readonly record struct TracePoint(
    DateTimeOffset Time,
    double AirCelsius,
    double CoolantCelsius,
    double PartCelsius,
    double ScaleCelsius,
    string? Feature,
    double EffectMicrometres,
    double BudgetMicrometres,
    Level Level);

/// <summary>One sensor at one moment.</summary>
/// <param name="Sensor">The sensor.</param>
/// <param name="LastTime">Event time of the last accepted reading, or null.</param>
/// <param name="LastValue">Its value, NaN when none.</param>
/// <param name="State">How far it can be used.</param>
/// <param name="Because">Why it cannot, or what else is wrong with it, or null.</param>
public sealed record SensorSnapshot(Sensor Sensor, DateTimeOffset? LastTime, double LastValue, SensorState State, string? Because)
{
    /// <summary>What is wrong with it over time, the worst; <see cref="TrustReason.None"/> when nothing is.</summary>
    public TrustReason Condition { get; init; }

    /// <summary>The physical sensor behind the last reading, or null when no calibration states it.</summary>
    public string? Instance { get; init; }

    /// <summary>Standard uncertainty (k = 1) of the last reading: of the sensor, its calibration and a change just made.</summary>
    public double Uncertainty { get; init; }

    /// <summary>Counts since the start.</summary>
    public SensorCounts Counts { get; init; }
}

/// <summary>How far a sensor can be used.</summary>
public enum SensorState
{
    /// <summary>Nothing came yet.</summary>
    Silent,

    /// <summary>Used.</summary>
    Fresh,

    /// <summary>Older than three periods; still used.</summary>
    Late,

    /// <summary>Too old to be used.</summary>
    Invalid,

    /// <summary>Its readings are set aside.</summary>
    Quarantined,
}

/// <summary>Counts since the start.</summary>
/// <param name="Readings">Readings accepted or corrected.</param>
/// <param name="Quarantined">Readings set aside.</param>
/// <param name="Unreadable">Messages that could not be read.</param>
/// <param name="Events">Events taken in.</param>
/// <param name="Refused">Events that named something unknown.</param>
/// <param name="ReceivedPerSecond">Arrivals a second over the last ten seconds.</param>
public sealed record LoopCounts(long Readings, long Quarantined, long Unreadable, long Events, long Refused, double ReceivedPerSecond);
