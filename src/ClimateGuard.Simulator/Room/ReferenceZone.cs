namespace ClimateGuard.Simulator;

/// <summary>One zone of the <see cref="ReferenceRoom"/>: an air node, a mass node, an air handler.</summary>
public sealed class ReferenceZone
{
    internal const double AirJoulesPerKelvin = 3.6e6;
    internal const double MassJoulesPerKelvin = 70e6;
    internal const double AirToMassWattsPerKelvin = 2300;
    internal const double ToHallWattsPerKelvin = 280;

    private readonly double fullFlowWattsPerKelvin;
    private readonly SupplyDuct duct;

    internal ReferenceZone(double fullFlowWattsPerKelvin, double startCelsius)
    {
        this.fullFlowWattsPerKelvin = fullFlowWattsPerKelvin;
        AirCelsius = startCelsius;
        MassCelsius = startCelsius;
        duct = new SupplyDuct(TimeSpan.FromMinutes(3), TimeSpan.FromMinutes(4), ReferenceRoom.Step, 18.0);
    }

    /// <summary>Air, in °C.</summary>
    public double AirCelsius { get; internal set; }

    /// <summary>Machines, slab and walls as one mass, in °C.</summary>
    public double MassCelsius { get; internal set; }

    /// <summary>Supply air, in °C.</summary>
    public double SupplyCelsius => duct.Celsius;

    /// <summary>The loop.</summary>
    public PiLoop Loop { get; } = new(18.0, 2.0, TimeSpan.FromSeconds(1500));

    /// <summary>Set point, in °C.</summary>
    public double SetpointCelsius { get; set; } = 20.0;

    /// <summary>Air flow as a share of full flow; 0 is a stopped fan.</summary>
    public double FlowShare { get; set; } = 1.0;

    /// <summary>The coldest supply, in °C.</summary>
    public double SupplyFloorCelsius { get; set; } = 13.0;

    /// <summary>Heat of machines and lights, in W.</summary>
    public double LoadWatts { get; set; }

    /// <summary>Whether its door to the hall is open.</summary>
    public bool DoorOpen { get; set; }

    internal void Control(double seconds) =>
        duct.Pass(Loop.Update(SetpointCelsius - AirCelsius, SupplyFloorCelsius, 26.0, seconds));

    internal double HeatWatts(double hallCelsius, double otherCelsius) =>
        (fullFlowWattsPerKelvin * FlowShare * (SupplyCelsius - AirCelsius))
        + (AirToMassWattsPerKelvin * (MassCelsius - AirCelsius))
        + (ToHallWattsPerKelvin * (hallCelsius - AirCelsius))
        + (ReferenceRoom.CouplingWattsPerKelvin * (otherCelsius - AirCelsius))
        + (DoorOpen ? DoorFlow.Watts(AirCelsius, hallCelsius, dischargeCoefficient: 0.5) : 0)
        + LoadWatts;
}
