namespace ClimateGuard.Simulator;

/// <summary>A tank of coolant or dielectric with a pump that heats it, a wall that leaks to the air and a chiller that switches on and off.</summary>
/// <remarks>C·dT/dt = Q_pump − UA·(T − T_air) − Q_chiller. A tank of 1.2 m³ emulsion has C = 4.9 MJ/K.</remarks>
public sealed class CoolantTank
{
    private readonly double joulesPerKelvin;
    private readonly double wattsPerKelvin;
    private bool chilling;

    /// <summary>A tank at its set point.</summary>
    /// <param name="joulesPerKelvin">C, in J/K.</param>
    /// <param name="wattsPerKelvin">UA to the air, in W/K.</param>
    /// <param name="pumpWatts">Heat of pump and cutting while it circulates, in W.</param>
    /// <param name="chillerWatts">What the chiller takes while it runs, in W.</param>
    /// <param name="startCelsius">Set point and start, in °C.</param>
    public CoolantTank(double joulesPerKelvin, double wattsPerKelvin, double pumpWatts, double chillerWatts, double startCelsius = 20.0)
    {
        this.joulesPerKelvin = joulesPerKelvin;
        this.wattsPerKelvin = wattsPerKelvin;
        PumpWatts = pumpWatts;
        ChillerWatts = chillerWatts;
        SetpointCelsius = startCelsius;
        Celsius = startCelsius;
    }

    /// <summary>The bulk temperature, in °C.</summary>
    public double Celsius { get; private set; }

    /// <summary>What the chiller holds, in °C.</summary>
    public double SetpointCelsius { get; internal set; }

    /// <summary>Half the dead band of the chiller, in K.</summary>
    public double HalfBandKelvin { get; init; } = 0.12;

    /// <summary>Heat of pump and cutting, in W.</summary>
    public double PumpWatts { get; }

    /// <summary>What the chiller takes, in W.</summary>
    public double ChillerWatts { get; }

    /// <summary>False while the chiller has tripped.</summary>
    public bool ChillerAvailable { get; set; } = true;

    /// <summary>Heat given to the air of the room during the last step, in W.</summary>
    public double ToAirWatts { get; private set; }

    /// <summary>Lets a step pass.</summary>
    public void Advance(double airCelsius, bool circulating, double seconds) => Advance(airCelsius, circulating, true, seconds);

    internal void Advance(double airCelsius, bool circulating, bool powered, double seconds)
    {
        if (Celsius > SetpointCelsius + HalfBandKelvin) chilling = true;
        if (Celsius < SetpointCelsius - HalfBandKelvin) chilling = false;
        ToAirWatts = wattsPerKelvin * (Celsius - airCelsius);
        var heat = (circulating ? PumpWatts : 0) - ToAirWatts - (chilling && ChillerAvailable && powered ? ChillerWatts : 0);
        Celsius += heat * seconds / joulesPerKelvin;
    }
}
