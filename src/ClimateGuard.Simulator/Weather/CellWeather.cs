namespace ClimateGuard.Simulator;

/// <summary>What stands around the cell at a moment: hall, outdoors, store, measuring room, chilled water.</summary>
public sealed class CellWeather
{
    private const double ChilledWaterCelsiusAtRest = 7.0;
    private const double HallHumidityShare = 0.0092;
    private readonly HallClimate climate;

    internal CellWeather(HallClimate climate) => this.climate = climate;

    /// <summary>Air of the hall, in °C.</summary>
    public double HallCelsius { get; private set; }

    /// <summary>Air outdoors, in °C.</summary>
    public double OutdoorCelsius { get; private set; }

    /// <summary>The store where blanks wait, in °C.</summary>
    public double StoreCelsius { get; private set; }

    /// <summary>The measuring room, in °C.</summary>
    public double MeasuringRoomCelsius { get; private set; } = 20.0;

    /// <summary>How much warmer the chilled water comes than it should, in K.</summary>
    public double WarmWaterKelvin { get; internal set; }

    /// <summary>Chilled water, in °C.</summary>
    public double ChilledWaterCelsius => ChilledWaterCelsiusAtRest + WarmWaterKelvin;

    /// <summary>Water in the air of the hall, in kg/kg.</summary>
    internal double HallShare => HallHumidityShare + climate.ExtraHumidityShare;

    internal AirOutside Outside => new(HallCelsius, OutdoorCelsius, ChilledWaterCelsius);

    internal void At(DateTime local)
    {
        HallCelsius = climate.HallCelsius(local);
        OutdoorCelsius = climate.OutdoorCelsius(local);
        StoreCelsius = HallClimate.StoreCelsius(local);
        MeasuringRoomCelsius = HallClimate.MeasuringRoomCelsius(local);
    }
}
