using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>One zone of the <see cref="VirtualRoom"/>: air below and above, the mass of the machines, the slab.</summary>
public sealed class VirtualZone
{
    private const double GroundCelsius = 17.5;
    private const double HealthySupplyToLow = 0.6;
    private const double LoadToLow = 0.7;
    private const double LowHeightMetres = 1.5;
    private const double HighHeightMetres = 4.5;
    private readonly RoomParameters parameters;
    private readonly AirHandlerUnit[] airHandlers;
    private readonly LagNode partition = new(TimeSpan.FromHours(1.5), 23.0);
    private LagNode? shelf;
    private double lowFlow;
    private double highFlow;

    internal VirtualZone(Zone zone, RoomParameters parameters, AirHandlerUnit[] airHandlers)
    {
        Zone = zone;
        this.parameters = parameters;
        this.airHandlers = airHandlers;
        foreach (var unit in airHandlers) unit.Serve(this);
        SetpointCelsius = zone.Setpoint.Value;
        LowCelsius = HighCelsius = MassCelsius = SlabCelsius = SetpointCelsius;
    }

    /// <summary>The description.</summary>
    public Zone Zone { get; }

    /// <summary>Its air handlers.</summary>
    public IReadOnlyList<AirHandlerUnit> AirHandlers => airHandlers;

    /// <summary>Set point, in °C.</summary>
    public double SetpointCelsius { get; set; }

    /// <summary>How many of its doors to the hall are open.</summary>
    public int OpenDoors { get; internal set; }

    /// <summary>Conductance to the hall against that of the tight enclosure.</summary>
    public double EnvelopeFactor { get; internal set; } = 1.0;

    /// <summary>Mixing between below and above against that of healthy diffusers.</summary>
    public double MixingShare { get; internal set; } = 1.0;

    // Cold air that does not reach the roof falls down.
    private double SupplyToLow => HealthySupplyToLow + ((0.97 - HealthySupplyToLow) * (1.0 - Math.Min(1.0, MixingShare)));

    /// <summary>Conductance of a thin partition to a warm neighbour, in W/K; it follows the hall 1.5 h late.</summary>
    public double PartitionWattsPerKelvin { get; internal set; }

    /// <summary>Heat of something that was put into the zone, in W.</summary>
    public double ExtraHeatWatts { get; internal set; }

    /// <summary>Air where people and machines are, in °C.</summary>
    public double LowCelsius { get; private set; }

    /// <summary>Air under the roof, in °C.</summary>
    public double HighCelsius { get; private set; }

    /// <summary>Machines and furniture, in °C.</summary>
    public double MassCelsius { get; private set; }

    /// <summary>The slab, in °C.</summary>
    public double SlabCelsius { get; private set; }

    /// <summary>A blank that has lain beside the machines for long, in °C: it follows the air 2.5 h late.</summary>
    public double ShelfCelsius => shelf?.Value ?? LowCelsius;

    /// <summary>What is stored against 20 °C, in J.</summary>
    internal double StoredJoules =>
        (parameters.LowAirJoulesPerKelvin * (LowCelsius - 20)) + (parameters.HighAirJoulesPerKelvin * (HighCelsius - 20))
        + (parameters.MassJoulesPerKelvin * (MassCelsius - 20)) + (parameters.SlabJoulesPerKelvin * (SlabCelsius - 20));

    /// <summary>Air at a height, in °C, linear between below and above.</summary>
    public double AirCelsius(double heightMetres)
    {
        var share = Math.Clamp((heightMetres - LowHeightMetres) / (HighHeightMetres - LowHeightMetres), -0.2, 1.2);
        return LowCelsius + (share * (HighCelsius - LowCelsius));
    }

    internal void Control(in AirOutside outside, double seconds)
    {
        var back = (SupplyToLow * LowCelsius) + ((1 - SupplyToLow) * HighCelsius);
        foreach (var unit in airHandlers)
        {
            if (unit.IsLedBy(this)) unit.Control(SetpointCelsius, LowCelsius, back, outside, seconds);
        }
    }

    internal void Collect(double hallCelsius, double loadWatts, VirtualZone? next, double couplingWattsPerKelvin, double seconds, EnergyBalance book)
    {
        loadWatts += ExtraHeatWatts;
        var (low, high) = (LoadToLow * loadWatts, (1 - LoadToLow) * loadWatts);
        book.Cross(loadWatts, seconds);
        partition.Advance(hallCelsius, seconds);
        foreach (var unit in airHandlers)
        {
            low += Outside(unit.WattsPerKelvinToEachZone * SupplyToLow * (unit.SupplyCelsius - LowCelsius), seconds, book);
            high += Outside(unit.WattsPerKelvinToEachZone * (1 - SupplyToLow) * (unit.SupplyCelsius - HighCelsius), seconds, book);
        }

        low += Outside(EnvelopeFactor * parameters.LowToHall * (hallCelsius - LowCelsius), seconds, book);
        high += Outside(EnvelopeFactor * parameters.HighToHall * (hallCelsius - HighCelsius), seconds, book);
        low += Outside(PartitionWattsPerKelvin * (partition.Value - LowCelsius), seconds, book);
        if (OpenDoors > 0) low += Outside(OpenDoors * DoorFlow.Watts(LowCelsius, hallCelsius), seconds, book);
        lowFlow += low;
        highFlow += high;
        if (next is null) return;
        Exchange(ref lowFlow, ref next.lowFlow, couplingWattsPerKelvin * 0.7 * (next.LowCelsius - LowCelsius));
        Exchange(ref highFlow, ref next.highFlow, couplingWattsPerKelvin * 0.3 * (next.HighCelsius - HighCelsius));
    }

    internal void Move(double seconds, EnergyBalance book)
    {
        var flow = 0.0;
        foreach (var unit in airHandlers) flow = Math.Max(flow, unit.Fan.FlowShare);
        var mixingWatts = parameters.MixingFanOff + (flow * (parameters.MixingFanOn - parameters.MixingFanOff));
        var mixing = MixingShare * mixingWatts * (HighCelsius - LowCelsius);
        var toMass = parameters.LowToMass * (LowCelsius - MassCelsius);
        var toSlab = parameters.LowToSlab * (LowCelsius - SlabCelsius);
        var fromGround = Outside(parameters.SlabToGround * (GroundCelsius - SlabCelsius), seconds, book);
        LowCelsius += (lowFlow + mixing - toMass - toSlab) * seconds / parameters.LowAirJoulesPerKelvin;
        HighCelsius += (highFlow - mixing) * seconds / parameters.HighAirJoulesPerKelvin;
        MassCelsius += toMass * seconds / parameters.MassJoulesPerKelvin;
        SlabCelsius += (toSlab + fromGround) * seconds / parameters.SlabJoulesPerKelvin;
        lowFlow = highFlow = 0;
        shelf ??= new LagNode(TimeSpan.FromHours(2.5), LowCelsius);
        shelf.Advance(LowCelsius, seconds);
    }

    private static double Outside(double watts, double seconds, EnergyBalance book)
    {
        book.Cross(watts, seconds);
        return watts;
    }

    private static void Exchange(ref double here, ref double there, double watts)
    {
        here += watts;
        there -= watts;
    }
}
