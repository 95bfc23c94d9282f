namespace ClimateGuard.Simulator;

/// <summary>The hall around the enclosure and the weather behind it, by local time. Invented.</summary>
public sealed class HallClimate
{
    private const double HeatWaveKelvin = 3.5;

    /// <summary>The days of the heat wave.</summary>
    public IReadOnlySet<DayOfWeek> HeatWave { get; init; } = new HashSet<DayOfWeek> { DayOfWeek.Wednesday, DayOfWeek.Thursday };

    /// <summary>Mean of the hall without a heat wave, in °C.</summary>
    public double HallMeanCelsius { get; init; } = 23.0;

    /// <summary>Half the daily swing of the hall, in K.</summary>
    public double HallSwingKelvin { get; init; } = 4.0;

    /// <summary>Mean outdoors without a heat wave, in °C.</summary>
    public double OutdoorMeanCelsius { get; init; } = 18.0;

    /// <summary>Water in the air of the hall above 9.2 g/kg, in kg/kg.</summary>
    public double ExtraHumidityShare { get; init; }

    /// <summary>Air of the hall, in °C: warmest at 16:00, coldest at 04:00.</summary>
    public double HallCelsius(DateTime local) =>
        HallMeanCelsius + (HeatWave.Contains(local.DayOfWeek) ? HeatWaveKelvin : 0) + (HallSwingKelvin * Daily(local, 16));

    /// <summary>Air outdoors, in °C: warmest at 15:00.</summary>
    public double OutdoorCelsius(DateTime local) =>
        OutdoorMeanCelsius + (HeatWave.Contains(local.DayOfWeek) ? 6.0 : 0) + (7.0 * Daily(local, 15));

    /// <summary>The cold store where blanks wait, in °C.</summary>
    public static double StoreCelsius(DateTime local) => 12.0 + (0.4 * Daily(local, 17));

    /// <summary>The measuring room, which has its own air, in °C.</summary>
    public static double MeasuringRoomCelsius(DateTime local) => 20.0 + (0.08 * Daily(local, 14));

    private static double Daily(DateTime local, double warmestHour) =>
        Math.Cos(2 * Math.PI * (local.TimeOfDay.TotalHours - warmestHour) / 24.0);
}
