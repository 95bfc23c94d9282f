namespace ClimateGuard.Simulator;

/// <summary>The water in the air of the enclosure: coolant gives it, the hall exchanges it, a drying coil takes it.</summary>
public sealed class RoomMoisture
{
    private const double AirKilograms = 2400;
    private const double TanksKilogramsPerSecond = 0.00045;
    private const double InfiltrationKilogramsPerSecond = 0.20;
    private const double DryingPerSecond = 0.002;
    private const double HeldPercent = 46.0;

    /// <summary>Water in kg per kg of dry air.</summary>
    public double Share { get; private set; } = HumidAir.Share(20.0, HeldPercent);

    /// <summary>Whether the drying coil works.</summary>
    public bool Drying { get; internal set; } = true;

    /// <summary>Infiltration against that of the tight enclosure.</summary>
    internal double InfiltrationFactor { get; set; } = 1.0;

    /// <summary>Relative humidity at an air temperature in °C, in %.</summary>
    public double Percent(double airCelsius) => Math.Min(100.0, HumidAir.Percent(airCelsius, Share));

    internal void Advance(double airCelsius, double hallShare, double doorCubicMetresPerSecond, double seconds)
    {
        var exchanged = (InfiltrationKilogramsPerSecond * InfiltrationFactor) + (1.2 * doorCubicMetresPerSecond);
        var held = HumidAir.Share(airCelsius, HeldPercent);
        var dried = Drying && Share > held ? DryingPerSecond * AirKilograms * (Share - held) : 0;
        var gain = TanksKilogramsPerSecond + (exchanged * (hallShare - Share)) - dried;
        Share = Math.Max(1e-4, Share + (gain * seconds / AirKilograms));
    }
}
