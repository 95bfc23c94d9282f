namespace ClimateGuard.Enclosure;

/// <summary>What an air handler has left, and what one more machine would take of it.</summary>
public static class CapacityMargin
{
    /// <summary>The cooling left: ṁcp·(supply − coldest supply), kW; 0 at capacity.</summary>
    /// <param name="room">The room.</param>
    /// <param name="supplyCelsius">Supply air now, °C.</param>
    /// <param name="coldestCelsius">The coldest the unit can supply, °C.</param>
    /// <param name="flowShare">Air flow as a share of full flow.</param>
    public static double Kilowatts(RoomModel room, double supplyCelsius, double coldestCelsius, double flowShare = 1)
    {
        ArgumentNullException.ThrowIfNull(room);
        return room[RoomParameter.FullFlow] * flowShare * Math.Max(0, supplyCelsius - coldestCelsius) / 1000;
    }

    /// <summary>One more machine of so many kilowatts.</summary>
    /// <param name="room">The room.</param>
    /// <param name="kilowatts">Its mean electric power, kW.</param>
    /// <param name="marginKilowatts">The cooling left before it, kW.</param>
    /// <param name="flowShare">Air flow as a share of full flow.</param>
    public static OneMoreMachine With(RoomModel room, double kilowatts, double marginKilowatts, double flowShare = 1)
    {
        ArgumentNullException.ThrowIfNull(room);

        // Before a share is known from data, all of its power is heat.
        var share = room[RoomParameter.LoadShare] > 0 ? room[RoomParameter.LoadShare] : 1;
        var perKelvin = room.Drive(new RoomInputs(0, flowShare, 0, 0, 0, 0)).PerKelvin;
        var left = marginKilowatts - (share * kilowatts);
        return new OneMoreMachine(share * kilowatts, left, Math.Max(0, -left) * 1000 / perKelvin, share * kilowatts * 1000 / perKelvin);
    }
}

/// <summary>What one more machine does to a zone.</summary>
/// <param name="HeatKilowatts">Its heat in the zone, kW.</param>
/// <param name="MarginLeftKilowatts">The cooling left with it, kW; below 0 the control cannot hold the set point.</param>
/// <param name="WarmerKelvins">How much warmer the air then stays, K; 0 while margin is left.</param>
/// <param name="WarmerAtCapacityKelvins">How much warmer it makes an air handler that is at capacity already, K.</param>
public sealed record OneMoreMachine(double HeatKilowatts, double MarginLeftKilowatts, double WarmerKelvins, double WarmerAtCapacityKelvins);
