using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>A zone as a room, from days of its minutes: what they tell of it, of its loop and of its usual day. Immutable.</summary>
public sealed record DescribedRoom
{
    /// <summary>The zone.</summary>
    public required Zone Zone { get; init; }

    /// <summary>What the minutes tell, or null with <see cref="WhyNot"/>.</summary>
    public RoomIdentification? Found { get; init; }

    /// <summary>Why the room cannot be described, or null.</summary>
    public string? WhyNot { get; init; }

    /// <summary>Its control as it shows in the supply air, or null when it cannot be seen.</summary>
    public SupplyLoop? Loop { get; init; }

    /// <summary>Its usual working day, at its own set point; null when the hall is not known.</summary>
    public DayProfile? UsualDay { get; init; }

    /// <summary>Its set-backs: those that the plant file states, else the one that was seen.</summary>
    public IReadOnlyList<SetBack> SetBacks { get; init; } = [];

    /// <summary>Describes a zone. Deterministic; takes some tenths of a second.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="minutes">Its minutes, ascending, over two days or more.</param>
    /// <param name="shifts">The shifts: on their days the usual day counts; none: all days count.</param>
    /// <param name="local">Where it stands.</param>
    public static DescribedRoom Of(Zone zone, IReadOnlyList<ZoneMoment> minutes, IReadOnlyList<Shift> shifts, TimeZoneInfo local)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(minutes);
        var (record, whyNot) = RoomRecord.Of(minutes);
        if (record is null) return new DescribedRoom { Zone = zone, WhyNot = whyNot };
        var (found, tooShort) = RoomIdentification.Of(record, RoomPriors.Usual);
        if (found is null) return new DescribedRoom { Zone = zone, WhyNot = tooShort };
        var course = new ZoneCourse(2 * ZoneCourse.StepsPerWeek);
        foreach (var minute in minutes) course.Add(minute);
        return new DescribedRoom
        {
            Zone = zone,
            Found = found,
            Loop = SupplyLoop.Of(course, int.MaxValue),
            UsualDay = UsualDayProfile.Of(zone, minutes, shifts, local),
            SetBacks = zone.SetBacks.Count > 0 ? zone.SetBacks : SeenSetBack.In(zone, minutes, local) is { } seen ? [seen] : [],
        };
    }
}
