namespace ClimateGuard.Enclosure;

/// <summary>What a set-back costs in the morning after it.</summary>
/// <param name="AirInBand">How long after its end the air is in its band, to stay for two hours; null when it is not within the day.</param>
/// <param name="MassSettled">How long after its end machines and slab are within the tolerance of their usual temperature at that hour; null as before.</param>
/// <param name="HoursLost">Hours of the shift that begins before both have settled, from its begin on.</param>
public sealed record SetBackCost(TimeSpan? AirInBand, TimeSpan? MassSettled, double HoursLost)
{
    private const int StaysMinutes = 120;

    /// <summary>Plays a night with the set-back against the same day without it.</summary>
    /// <param name="room">The room.</param>
    /// <param name="loop">Its control.</param>
    /// <param name="day">The day without a set-back; the set-back lies before <paramref name="ends"/> and lasted long enough to warm the masses.</param>
    /// <param name="setBackCelsius">The set point of the set-back, °C.</param>
    /// <param name="ends">When it ends, local time of day.</param>
    /// <param name="shiftBegins">When the shift begins.</param>
    /// <param name="bandKelvins">Band of the air, plus or minus, K.</param>
    /// <param name="massKelvins">Tolerance of the masses, K.</param>
    public static SetBackCost Of(
        RoomModel room, SupplyLoop loop, DayProfile day, double setBackCelsius, TimeSpan ends, TimeSpan shiftBegins, double bandKelvins, double massKelvins)
    {
        ArgumentNullException.ThrowIfNull(day);
        day.Check();
        var until = (int)ends.TotalMinutes;
        var without = DesignDay.Of(room, loop, day);
        var night = day with { Setpoint = [.. Enumerable.Repeat(setBackCelsius, DayProfile.Minutes)] };
        var settled = DesignDay.Of(room, loop, night);
        var morning = After(room, loop, day, until, settled.AirCelsius[until], settled.MassCelsius[until]);
        var air = SettledAfter(until, minute => Math.Abs(morning.Air[minute - until] - day.Setpoint[minute]) <= bandKelvins);
        var mass = SettledAfter(until, minute => Math.Abs(morning.Mass[minute - until] - without.MassCelsius[minute]) <= massKelvins);
        var ready = air is { } a && mass is { } m ? ends + (a > m ? a : m) : TimeSpan.FromDays(1);
        return new SetBackCost(air, mass, Math.Max(0, (ready - shiftBegins).TotalHours));
    }

    private static (double[] Air, double[] Mass) After(RoomModel room, SupplyLoop loop, DayProfile day, int from, double air, double mass)
    {
        double supply = Math.Clamp(air, loop.LowCelsius, loop.HighCelsius), asked = supply, error = 0;
        var (airs, masses) = (new double[DayProfile.Minutes - from], new double[DayProfile.Minutes - from]);
        for (var minute = from; minute < DayProfile.Minutes; minute++)
        {
            var before = error;
            error = day.Setpoint[minute] - air;
            (asked, supply) = loop.Step(asked, supply, before, error, 1);
            var inputs = new RoomInputs(supply, 1, day.Hall[minute], day.Setpoint[minute], day.LoadKilowatts[minute], 0);
            (air, mass) = new RoomTransition(room, inputs, 60).Step(air, mass, room.Drive(inputs).Watts);
            (airs[minute - from], masses[minute - from]) = (air, mass);
        }

        return (airs, masses);
    }

    private static TimeSpan? SettledAfter(int from, Func<int, bool> settled)
    {
        var since = from;
        for (var minute = from; minute < DayProfile.Minutes; minute++)
        {
            if (!settled(minute)) since = minute + 1;
            else if (minute - since >= StaysMinutes) return TimeSpan.FromMinutes(since - from);
        }

        return null;
    }
}
