using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>What a described room answers; an answer that rests on what is not identified is not told, and says so.</summary>
public sealed record RoomAnswers
{
    /// <summary>How much warmer the hall is on a day by which one designs, K.</summary>
    public const double DesignHallKelvins = 10;

    /// <summary>How it comes back after its air was off by the band, with the cooling left on a usual day; null when not told.</summary>
    public Recovery? Recovery { get; init; }

    /// <summary>Its usual day; null when not told.</summary>
    public DesignDay? UsualDay { get; init; }

    /// <summary>The same day with a hall that is 10 K warmer; null when not told.</summary>
    public DesignDay? WarmDay { get; init; }

    /// <summary>One more machine on the usual day; null when not asked or not told.</summary>
    public OneMoreMachine? MachineOnUsualDay { get; init; }

    /// <summary>One more machine on the warm day; null when not asked or not told.</summary>
    public OneMoreMachine? MachineOnWarmDay { get; init; }

    /// <summary>What each set-back costs; empty when there is none or it is not told.</summary>
    public IReadOnlyList<SetBackAnswer> SetBacks { get; init; } = [];

    /// <summary>What is not told and why, in sentences.</summary>
    public IReadOnlyList<string> NotTold { get; init; } = [];

    /// <summary>Answers for a room.</summary>
    /// <param name="room">The room.</param>
    /// <param name="shifts">The shifts, for the hours that a set-back costs.</param>
    /// <param name="machineKilowatts">Mean power of one more machine, kW, from 0; null: not asked.</param>
    public static RoomAnswers Of(DescribedRoom room, IReadOnlyList<Shift> shifts, double? machineKilowatts)
    {
        ArgumentNullException.ThrowIfNull(room);
        ArgumentNullException.ThrowIfNull(shifts);
        if (room.Found is not { } found) return new RoomAnswers { NotTold = [room.WhyNot ?? "The room is not described."] };
        var not = new List<string>();
        bool Tells(string what, params RoomParameter[] needed) => IsTold(room, what, needed, not);

        var usual = Tells("The cooling left on a usual day", RoomParameter.FullFlow) ? DesignDay.Of(found.Room, room.Loop!, room.UsualDay!) : null;
        var warm = Tells("A day with a hall 10 K warmer", RoomParameter.FullFlow, RoomParameter.ToHall)
            ? DesignDay.Of(found.Room, room.Loop!, room.UsualDay!.Warmer(DesignHallKelvins)) : null;
        var recovers = usual is not null && Tells("The recovery", RoomParameter.AirHeat, RoomParameter.AirToMass, RoomParameter.MassHeat);
        var masses = room.SetBacks.Count > 0 && Tells("What a set-back costs", RoomParameter.FullFlow, RoomParameter.AirToMass, RoomParameter.MassHeat);
        return new RoomAnswers
        {
            UsualDay = usual,
            WarmDay = warm,
            Recovery = recovers ? Recovery.Of(found.Room, room.Zone.Band.Value, usual!.LeastMarginKilowatts) : null,
            MachineOnUsualDay = With(found.Room, usual, machineKilowatts),
            MachineOnWarmDay = With(found.Room, warm, machineKilowatts),
            SetBacks = masses ? [.. room.SetBacks.Select(back => SetBackAnswer.Of(room, back, shifts))] : [],
            NotTold = not,
        };
    }

    private static OneMoreMachine? With(RoomModel room, DesignDay? day, double? kilowatts) =>
        day is not null && kilowatts is { } asked ? CapacityMargin.With(room, asked, day.LeastMarginKilowatts) : null;

    private static bool IsTold(DescribedRoom room, string what, RoomParameter[] needed, List<string> not)
    {
        string[] lacking =
        [
            .. room.UsualDay is null ? ["a usual day of the hall"] : Array.Empty<string>(),
            .. room.Loop is null ? ["the control, which does not show in the supply air"] : Array.Empty<string>(),
            .. needed.Where(parameter => !room.Found!.Knows(parameter)).Select(parameter => $"the {parameter.Name()}"),
        ];
        if (lacking.Length > 0) not.Add($"{what} is not told, because this is not known well enough: {string.Join(", ", lacking)}.");
        return lacking.Length == 0;
    }
}

/// <summary>What a set-back costs on the morning after it.</summary>
/// <param name="SetBack">The set-back.</param>
/// <param name="ShiftBegins">When the shift begins in which it ends, or the next of that day; null when there is none: then the hours count from its end on.</param>
/// <param name="Cost">The cost.</param>
/// <param name="AtMost">Whether it lasts less than a day, so that the masses do not reach its set point and it costs less.</param>
public sealed record SetBackAnswer(SetBack SetBack, TimeOnly? ShiftBegins, SetBackCost Cost, bool AtMost)
{
    internal static SetBackAnswer Of(DescribedRoom room, SetBack back, IReadOnlyList<Shift> shifts)
    {
        var begins = shifts.Where(shift => shift.Days.Contains(back.Until.Day) && (shift.From >= back.Until.Time || back.Until.Time.IsBetween(shift.From, shift.To)))
            .Select(shift => (TimeOnly?)shift.From).Min();
        var ends = back.Until.Time.ToTimeSpan();
        var band = room.Zone.Band.Value;
        var cost = SetBackCost.Of(
            room.Found!.Room, room.Loop!, room.UsualDay!, back.Setpoint.Value, ends, begins?.ToTimeSpan() ?? ends, band, band);
        var minutes = (back.Until.MinuteOfWeek - back.From.MinuteOfWeek + WeekTime.MinutesPerWeek) % WeekTime.MinutesPerWeek;
        return new SetBackAnswer(back, begins, cost, minutes < WeekTime.MinutesPerWeek / 7);
    }
}
