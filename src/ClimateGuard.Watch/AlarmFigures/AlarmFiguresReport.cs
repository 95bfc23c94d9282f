namespace ClimateGuard.Watch;

/// <summary>The figures about our own alarms at one moment.</summary>
public sealed record AlarmFiguresReport
{
    /// <summary>The moment.</summary>
    public required DateTimeOffset Time { get; init; }

    /// <summary>Since when it has been counted, at most 30 days back.</summary>
    public required DateTimeOffset Since { get; init; }

    /// <summary>Whether enough was seen to judge: 30 days.</summary>
    public required bool EnoughEvidence { get; init; }

    /// <summary>Activations since <see cref="Since"/>.</summary>
    public required long Alarms { get; init; }

    /// <summary>Alarms that stand now.</summary>
    public required int Standing { get; init; }

    /// <summary>Activations in the last 10 minutes.</summary>
    public required long InTenMinutes { get; init; }

    /// <summary>Activations in the last hour.</summary>
    public required long InAnHour { get; init; }

    /// <summary>Activations in the present shift, or null when there is none.</summary>
    public required long? InThisShift { get; init; }

    /// <summary>Whether there is a flood now.</summary>
    public required bool InFlood { get; init; }

    /// <summary>Floods since <see cref="Since"/>.</summary>
    public required int Floods { get; init; }

    /// <summary>Share of the time in flood, in [0, 1].</summary>
    public required double FloodShare { get; init; }

    /// <summary>Ids of the alarms that stand for more than 24 h, oldest first.</summary>
    public required IReadOnlyList<string> Stale { get; init; }

    /// <summary>Causes that chattered, most often first.</summary>
    public required IReadOnlyList<AlarmCause> Chattering { get; init; }

    /// <summary>The ten most frequent causes.</summary>
    public required IReadOnlyList<AlarmCause> TopCauses { get; init; }

    /// <summary>Shares of the priorities, adding up to 1, or all 0 without alarms.</summary>
    public required PriorityShares Priorities { get; init; }

    /// <summary>The figures beside the published ones.</summary>
    public required IReadOnlyList<AlarmFigure> Figures { get; init; }
}

/// <summary>How often one cause came.</summary>
/// <param name="Machine">Id of the machine, or null for the cell.</param>
/// <param name="Cause">The cause.</param>
/// <param name="Count">How often.</param>
/// <param name="Share">Share of all, in [0, 1].</param>
public sealed record AlarmCause(string? Machine, string Cause, long Count, double Share);

/// <summary>Shares of the priorities, each in [0, 1].</summary>
/// <param name="Low">Low.</param>
/// <param name="Medium">Medium.</param>
/// <param name="High">High.</param>
public sealed record PriorityShares(double Low, double Medium, double High);
