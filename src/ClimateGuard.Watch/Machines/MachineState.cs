using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>All that the watch of one machine remembers between two moments.</summary>
/// <remarks>
/// A value: <see cref="MachineWatch.Step"/> never changes the one it was given, it returns the next. Whoever holds an old one may step from it
/// again and gets the same. Immutable but for <see cref="Thermal"/>, which nobody changes once it is in here.
/// </remarks>
public sealed record MachineState
{
    /// <summary>Id of the machine.</summary>
    public required string Machine { get; init; }

    /// <summary>The moment this state stands for.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Temperatures and drift, or null as long as the air was never known.</summary>
    public ThermalState? Thermal { get; init; }

    /// <summary>The surroundings last known.</summary>
    public LocalClimate Climate { get; init; }

    /// <summary>What is loaded, or null.</summary>
    public JobLoaded? Job { get; init; }

    /// <summary>The job was taken into <see cref="Thermal"/>; false as long as the air was not known.</summary>
    public bool JobIsIn { get; init; }

    /// <summary>Whether coolant runs over the part.</summary>
    public bool CoolantOn { get; init; }

    /// <summary>When the coolant stopped, while the part may still be wet.</summary>
    public DateTimeOffset? WetSince { get; init; }

    /// <summary>How hard the spindle works, 0 to 1.</summary>
    public double SpindleLoad { get; init; }

    /// <summary>When the datum was last probed, by axis X, Y, Z.</summary>
    public IReadOnlyList<DateTimeOffset?> ProbedAt { get; init; } = [null, null, null];

    /// <summary>When a length on this part was last probed, or null.</summary>
    public DateTimeOffset? SpanProbedAt { get; init; }

    /// <summary>The offset that a setter has set for this part, or null.</summary>
    public StandingOffset? Offset { get; init; }

    /// <summary>Since when a door of the cell is open, or null.</summary>
    public DateTimeOffset? DoorOpenSince { get; init; }

    /// <summary>The finish cut that runs, or null.</summary>
    public RunningCut? Cut { get; init; }

    /// <summary>When a computed level becomes the level shown.</summary>
    public LevelTiming Timing { get; init; } = LevelTiming.Begin;

    /// <summary>What to do and when it could start, as worked out last; null when the cut may start.</summary>
    public Prospect? Prospect { get; init; }

    /// <summary>Permits and answers.</summary>
    public PermitBook Permits { get; init; } = PermitBook.Empty;

    /// <summary>The override given, in force or waiting for its second person; null when there is none.</summary>
    public ActiveOverride? Override { get; init; }

    /// <summary>From which probability on the cell holds; null before it was ever looked at: what the plant file says.</summary>
    public HoldThreshold? Threshold { get; init; }

    /// <summary>A span probe of this part is not older than an hour (common practice, no source).</summary>
    internal bool SpanIsKnown => SpanProbedAt is { } at && At - at <= TimeSpan.FromHours(1);

    /// <summary>The policies in force for this machine.</summary>
    /// <param name="stated">Those of the plant file.</param>
    internal Policies Over(Policies stated) => Threshold?.Over(stated) ?? stated;

    /// <summary>Sequence number of the last outlook.</summary>
    public long Seq { get; init; }

    /// <summary>The last outlook issued, or null.</summary>
    public Outlook? Outlook { get; init; }

    /// <summary>When the risk of the cut was last worked out, or null.</summary>
    public DateTimeOffset? EvaluatedAt { get; init; }

    /// <summary>The effect of each feature then, in µm.</summary>
    public IReadOnlyList<double> EvaluatedMicrometres { get; init; } = [];

    /// <summary>How the air is expected to move; told anew with each moment, so it is not kept.</summary>
    internal AirCourse? AirAhead { get; init; }

    /// <summary>The recent past.</summary>
    public Trace Trace { get; init; } = Trace.Empty;

    /// <summary>
    /// The same state after the wall clock was set by so much: what has been waited stays waited and what is left stays left. Times that people
    /// named, such as the end of an override, stay as they are.
    /// </summary>
    /// <param name="by">How far the clock was set forward; negative when it was set back.</param>
    public MachineState AfterClockStep(TimeSpan by) => this with
    {
        At = At + by,
        WetSince = WetSince + by,
        DoorOpenSince = DoorOpenSince + by,
        Cut = Cut is null ? null : Cut with { Since = Cut.Since + by },
        ProbedAt = [.. ProbedAt.Select(at => at + by)],
        SpanProbedAt = SpanProbedAt + by,
        Offset = Offset is null ? null : Offset with { At = Offset.At + by },
        Timing = Timing with { Since = Timing.Since + by, MeasureDueSince = Timing.MeasureDueSince + by, HoldDueSince = Timing.HoldDueSince + by },
        Prospect = Prospect is null ? null : Prospect with { At = Prospect.At + by },
        EvaluatedAt = null,
        AirAhead = null,

        // What was published says times of the old clock: the next step issues it anew.
        Outlook = Outlook is null ? null : Outlook with { IssuedAt = DateTimeOffset.MinValue },
        Permits = Permits.AfterClockStep(by),
    };
}

/// <summary>A finish cut that runs.</summary>
/// <param name="Serial">Serial number.</param>
/// <param name="Operation">Operation.</param>
/// <param name="Since">Since when.</param>
/// <param name="PermitId">The permit it started on, or null when it started without one.</param>
public sealed record RunningCut(string Serial, string Operation, DateTimeOffset Since, string? PermitId);
