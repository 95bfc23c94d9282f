using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>One message as it came in: a reading, an event, or something that could not be read.</summary>
/// <remarks>
/// A value type, so that a burst of readings costs no allocation here. Exactly one of <see cref="Event"/> and <see cref="Unreadable"/>
/// is set for those kinds; otherwise it is a reading. Equality is by members; no order; the default is a reading of the first sensor.
/// </remarks>
public readonly record struct Arrival
{
    /// <summary>The reading, when neither <see cref="Event"/> nor <see cref="Unreadable"/> is set.</summary>
    public Reading Reading { get; init; }

    /// <summary>The event, or null.</summary>
    public CellEvent? Event { get; init; }

    /// <summary>What could not be read, or null.</summary>
    public UnreadableMessage? Unreadable { get; init; }

    /// <summary>When it came in, by the clock of this process.</summary>
    public DateTimeOffset ArrivedAt { get; init; }

    /// <summary>The broker kept it from before: never live.</summary>
    public bool Retained { get; init; }

    /// <summary>The payload named no event time, so the arrival time stands in.</summary>
    public bool TimeIsArrival { get; init; }

    /// <summary>The cell in which the reading's sensor counts, as the source knew it; null for the one in force.</summary>
    public Cell? Cell { get; init; }

    /// <summary>What the source needs to acknowledge it; opaque to everyone else.</summary>
    public object? Receipt { get; init; }

    /// <summary>Whether this is a reading.</summary>
    public bool IsReading => Event is null && Unreadable is null;
}

/// <summary>A message that could not be read: kept and counted, never dropped in silence.</summary>
/// <param name="Topic">Where it came from.</param>
/// <param name="Reason">What was found and what is allowed, in one sentence.</param>
/// <param name="PayloadStart">The first bytes of the payload, made printable, at most 200 characters.</param>
public sealed record UnreadableMessage(string Topic, string Reason, string PayloadStart);
