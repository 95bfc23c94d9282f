namespace ClimateGuard.Watch;

/// <summary>When people are told, and how often.</summary>
public sealed record NoticeRules
{
    /// <summary>Id of the cell, for subjects and keys.</summary>
    public required string Cell { get; init; }

    /// <summary>The local time zone of the cell.</summary>
    public required TimeZoneInfo Zone { get; init; }

    /// <summary>How long an alert must stand before anyone is told; what comes in that time with the same reason goes into the same notice.</summary>
    public TimeSpan GatherFor { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>
    /// How long an alert must be over before it is told as over; one that comes back earlier goes on as the same. 60 s is the starting value
    /// for temperature signals in alarm-management practice after ISA-18.2 (from memory).
    /// </summary>
    public TimeSpan CloseAfter { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>How long after its begin a notice takes in further machines with the same reason.</summary>
    public TimeSpan GroupWithin { get; init; } = TimeSpan.FromMinutes(10);

    /// <summary>The least time between two messages of one notice that only correct it.</summary>
    public TimeSpan EditAtMostEvery { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>After which times from its begin an open notice is followed up, once each, rising.</summary>
    public IReadOnlyList<TimeSpan> FollowUps { get; init; } = [TimeSpan.FromMinutes(30), TimeSpan.FromHours(2)];

    /// <summary>How many activations within <see cref="ChatteringWithin"/> make an alert chatter; 3 in 1 min is the usual first rule under ISA-18.2.</summary>
    public int ChatteringFrom { get; init; } = 3;

    /// <summary>See <see cref="ChatteringFrom"/>.</summary>
    public TimeSpan ChatteringWithin { get; init; } = TimeSpan.FromMinutes(1);

    /// <summary>How long a chattering alert must be over before it is told as over.</summary>
    public TimeSpan CalmAfter { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>After which time without news an open notice is given up, with a last message: no one reported its end.</summary>
    public TimeSpan DropAfter { get; init; } = TimeSpan.FromHours(24);

    /// <summary>
    /// The most messages in any hour, in [1, 1 000]; high priority may take twice as many. The rest waits and comes as one digest. 12 is the
    /// most a person can manage in an hour (ISA-18.2, IEC 62682).
    /// </summary>
    public int MostPerHour { get; init; } = 12;

    /// <summary>When nobody wants to be woken, or null for never.</summary>
    public LocalPeriod? QuietHours { get; init; }

    /// <summary>From which priority on a notice is told in the quiet hours too.</summary>
    public AlertPriority QuietLetsThrough { get; init; } = AlertPriority.High;
}
