namespace ClimateGuard.Plant;

/// <summary>The values that stand in for what a sensor does not state; common practice, no source.</summary>
public static class SensorDefaults
{
    /// <summary>The quantity stated, else temperature.</summary>
    /// <exception cref="ArgumentNullException">The argument is null.</exception>
    public static SensorQuantity QuantityOf(SensorDraft sensor)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        return sensor.Quantity ?? SensorQuantity.Temperature;
    }

    /// <summary>Where a sensor of a quantity usually sits: a contact on a door, a signal among the commands, others in the air.</summary>
    public static SensorPlace Place(SensorQuantity quantity) => quantity switch
    {
        SensorQuantity.Contact => SensorPlace.Door,
        SensorQuantity.Fraction or SensorQuantity.Power or SensorQuantity.Speed => SensorPlace.Command,
        SensorQuantity.Flow or SensorQuantity.Pressure => SensorPlace.Supply,
        _ => SensorPlace.Air,
    };

    /// <summary>The canonical unit of the quantity.</summary>
    public static string Unit(SensorQuantity quantity) => SensorUnits.ByQuantity[quantity][0];

    /// <summary>Standard uncertainty of one reading, in K or the canonical unit of the quantity.</summary>
    public static double Uncertainty(SensorQuantity quantity) => quantity switch
    {
        SensorQuantity.Temperature => 0.1,
        SensorQuantity.RelativeHumidity => 2.0,
        SensorQuantity.Contact => 0.0,
        SensorQuantity.Fraction => 0.01,
        SensorQuantity.Pressure => 5.0,
        SensorQuantity.Flow => 1.0,
        SensorQuantity.Power => 0.1,
        _ => 1.0,
    };

    /// <summary>Time constant: 60 s for temperature and humidity, none for the others.</summary>
    public static TimeSpan TimeConstant(SensorQuantity quantity) =>
        quantity is SensorQuantity.Temperature or SensorQuantity.RelativeHumidity ? TimeSpan.FromSeconds(60) : TimeSpan.Zero;

    /// <summary>Least and greatest plausible value, in the canonical unit; a temperature outdoors may go from -40 to 60 °C.</summary>
    public static (double Low, double High) Plausible(SensorQuantity quantity, SensorPlace place) => quantity switch
    {
        SensorQuantity.Temperature when place is SensorPlace.Outdoor => (-40, 60),
        SensorQuantity.Temperature when place is SensorPlace.Storage or SensorPlace.Hall or SensorPlace.Mixed => (-20, 60),
        SensorQuantity.Temperature when place is SensorPlace.ChilledWater => (1, 45),
        SensorQuantity.Temperature => (5, 45),
        SensorQuantity.RelativeHumidity => (0, 100),
        SensorQuantity.Contact or SensorQuantity.Fraction => (0, 1),
        SensorQuantity.Pressure => (-5_000, 5_000),
        SensorQuantity.Flow => (0, 500_000),
        SensorQuantity.Power => (0, 1_000),
        _ => (0, 100_000),
    };
}
