namespace ClimateGuard.Enclosure;

/// <summary>A day to try a room on: a clock time gives the hall, the machines, and the set point.</summary>
/// <param name="Hall">Hall by minute of the day, °C; 1440 values.</param>
/// <param name="LoadKilowatts">Power of the machines by minute of the day, kW; 1440 values.</param>
/// <param name="Setpoint">Set point by minute of the day, °C; 1440 values.</param>
public sealed record DayProfile(IReadOnlyList<double> Hall, IReadOnlyList<double> LoadKilowatts, IReadOnlyList<double> Setpoint)
{
    internal const int Minutes = 24 * 60;

    /// <summary>The same day with a hall so much warmer; a summer day by which one designs has 10 K more.</summary>
    public DayProfile Warmer(double kelvins = 10) => this with { Hall = [.. Hall.Select(hall => hall + kelvins)] };

    internal void Check()
    {
        if (Hall.Count != Minutes || LoadKilowatts.Count != Minutes || Setpoint.Count != Minutes)
            throw new ArgumentException($"A day profile has {Minutes} values of hall, load and set point each.");
    }
}

/// <summary>What a room with its loop does on such a day after it has lived through three of them.</summary>
/// <param name="MostKelvins">The farthest above the set point, K.</param>
/// <param name="LeastKelvins">The farthest below, K.</param>
/// <param name="AtCapacity">How long the supply stood at a limit.</param>
/// <param name="LeastMarginKilowatts">The least cooling left, kW.</param>
/// <param name="AirCelsius">Air by minute, °C.</param>
/// <param name="MassCelsius">Machines and slab by minute, °C.</param>
public sealed record DesignDay(
    double MostKelvins, double LeastKelvins, TimeSpan AtCapacity, double LeastMarginKilowatts, IReadOnlyList<double> AirCelsius, IReadOnlyList<double> MassCelsius)
{
    private const int DaysBefore = 3;

    /// <summary>Plays the day.</summary>
    /// <param name="room">The room.</param>
    /// <param name="loop">Its control, with the limits of the air handler.</param>
    /// <param name="day">The day; the next zone is as warm as the set point.</param>
    /// <exception cref="ArgumentException">The profile has not 1440 minutes.</exception>
    public static DesignDay Of(RoomModel room, SupplyLoop loop, DayProfile day)
    {
        ArgumentNullException.ThrowIfNull(room);
        ArgumentNullException.ThrowIfNull(loop);
        ArgumentNullException.ThrowIfNull(day);
        day.Check();
        return Play(room, loop, day, DaysBefore);
    }

    internal static DesignDay Play(RoomModel room, SupplyLoop loop, DayProfile day, int daysBefore)
    {
        double air = day.Setpoint[0], mass = air, supply = Math.Clamp(air - 2, loop.LowCelsius, loop.HighCelsius), asked = supply, error = 0;
        double most = double.NegativeInfinity, least = double.PositiveInfinity, margin = double.PositiveInfinity;
        var (airs, masses, limited) = (new double[DayProfile.Minutes], new double[DayProfile.Minutes], 0);
        for (var minute = -daysBefore * DayProfile.Minutes; minute < DayProfile.Minutes; minute++)
        {
            var clock = ((minute % DayProfile.Minutes) + DayProfile.Minutes) % DayProfile.Minutes;
            var before = error;
            error = day.Setpoint[clock] - air;
            (asked, supply) = loop.Step(asked, supply, before, error, 1);
            var inputs = new RoomInputs(supply, 1, day.Hall[clock], day.Setpoint[clock], day.LoadKilowatts[clock], 0);
            (air, mass) = new RoomTransition(room, inputs, 60).Step(air, mass, room.Drive(inputs).Watts);
            if (minute < 0) continue;
            (airs[minute], masses[minute]) = (air, mass);
            most = Math.Max(most, air - day.Setpoint[clock]);
            least = Math.Min(least, air - day.Setpoint[clock]);
            margin = Math.Min(margin, CapacityMargin.Kilowatts(room, supply, loop.LowCelsius));
            if (asked <= loop.LowCelsius || asked >= loop.HighCelsius) limited++;
        }

        return new DesignDay(most, least, TimeSpan.FromMinutes(limited), margin, airs, masses);
    }
}
