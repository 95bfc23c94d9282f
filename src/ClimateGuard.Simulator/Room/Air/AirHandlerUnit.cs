using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>An air handler: damper, cooling coil, heater, fan, filter and loop, with the faults that can be laid on each.</summary>
/// <remarks>
/// The loop on zone air asks for a supply temperature; the valve opens as far as a healthy coil would need for it. The loop does not know of
/// the faults: it has to find them out by asking for more.
/// </remarks>
public sealed class AirHandlerUnit
{
    internal const double ColdestCelsius = 13.0;
    private const double WarmestCelsius = 26.0;
    private const double HeaterKelvin = 7.0;
    private const double ApproachKelvin = 5.2;
    private const double DropAtLowFlow = 0.35;
    private const double CubicMetresPerHourPerWattPerKelvin = 18_000.0 / 6_050.0;
    private readonly SupplyDuct duct;
    private VirtualZone? leader;
    private int zonesServed;
    private bool thermostatCools;

    internal AirHandlerUnit(AirHandler description, double fullFlowWattsPerKelvin, Chance chance, double scale, TimeSpan step)
    {
        Description = description;
        FullFlowWattsPerKelvin = chance.Perturbed(fullFlowWattsPerKelvin, scale / 2);
        Loop = new PiLoop(18.0, chance.Perturbed(2.0, scale), TimeSpan.FromSeconds(chance.Perturbed(1500, scale)));
        var lag = chance.Perturbed(240, scale);
        Compressor = description.Medium == CoolingMedium.DirectExpansion ? new CompressorStage() : null;
        duct = Compressor is null
            ? new SupplyDuct(TimeSpan.FromMinutes(3), TimeSpan.FromSeconds(lag), step, 18.0)
            : new SupplyDuct(TimeSpan.FromSeconds(30), TimeSpan.FromSeconds(lag / 4), step, 18.0);
    }

    /// <summary>The description.</summary>
    public AirHandler Description { get; }

    /// <summary>The loop on zone air.</summary>
    public PiLoop Loop { get; }

    /// <summary>The valve of the cooling coil.</summary>
    public ControlValve CoolingValve { get; } = new();

    /// <summary>The valve of the heater.</summary>
    public ControlValve HeatingValve { get; } = new();

    /// <summary>Fan, belt and filter.</summary>
    public SupplyFan Fan { get; } = new();

    /// <summary>The damper; it mixes nothing when the unit takes no outdoor air.</summary>
    public OutdoorDamper Damper { get; } = new();

    /// <summary>The direct-expansion stage, or null for chilled water.</summary>
    public CompressorStage? Compressor { get; }

    /// <summary>ṁ·cp at full flow, in W/K.</summary>
    public double FullFlowWattsPerKelvin { get; }

    /// <summary>How much the coldest supply has risen above 13 °C, in K: little water, or warm water.</summary>
    public double LostCoolingKelvin { get; internal set; }

    /// <summary>What the coil still does of what a clean one does.</summary>
    public double CoilShare { get; internal set; } = 1.0;

    /// <summary>The command somebody has set by hand, or null for automatic.</summary>
    public double? ManualCommand { get; internal set; }

    /// <summary>Heating that runs whatever the loop asks, as a share: two loops that overlap.</summary>
    public double HeatingOverlap { get; internal set; }

    /// <summary>Dead band of a thermostat that has replaced the loop, in K; 0 is the loop.</summary>
    public double ThermostatBandKelvin { get; internal set; }

    /// <summary>Share of the supply air that goes straight into the return.</summary>
    public double ShortCircuitShare { get; internal set; }

    /// <summary>Another zone that the loop watches instead of its own, or null.</summary>
    internal VirtualZone? WatchesInstead { get; set; }

    /// <summary>ṁ·cp now, in W/K.</summary>
    public double WattsPerKelvin => FullFlowWattsPerKelvin * Fan.FlowShare;

    internal double WattsPerKelvinToEachZone => WattsPerKelvin * (1.0 - ShortCircuitShare) / Math.Max(1, zonesServed);

    /// <summary>Supply air, in °C; without flow the sensor sees the air of the room seep back.</summary>
    public double SupplyCelsius => Fan.FlowShare > 0.02 ? duct.Celsius : ReturnCelsius;

    /// <summary>Return air, in °C.</summary>
    public double ReturnCelsius { get; private set; } = 20.0;

    /// <summary>Air that enters the coils, in °C.</summary>
    public double MixedCelsius { get; private set; } = 20.0;

    /// <summary>Command of the cooling, 0 to 1.</summary>
    public double CoolingCommand => CoolingValve.Command;

    /// <summary>Command of the heater, 0 to 1.</summary>
    public double HeatingCommand => HeatingValve.Command;

    /// <summary>Supply temperature asked for, in °C.</summary>
    public double AskedCelsius { get; private set; } = 18.0;

    /// <summary>Set point of the zone it is led by, in °C.</summary>
    public double SetpointCelsius { get; private set; } = 20.0;

    /// <summary>Air flow, in m³/h.</summary>
    public double CubicMetresPerHour => WattsPerKelvin * CubicMetresPerHourPerWattPerKelvin;

    // The first zone it serves leads its loop; its air is shared equally.
    internal void Serve(VirtualZone zone)
    {
        leader ??= zone;
        zonesServed++;
    }

    internal bool IsLedBy(VirtualZone zone) => ReferenceEquals(leader, zone);

    internal void Control(double setpointCelsius, double zoneAirCelsius, double returnCelsius, in AirOutside outside, double seconds)
    {
        SetpointCelsius = setpointCelsius;
        ReturnCelsius = returnCelsius + (ShortCircuitShare * (duct.Celsius - returnCelsius));
        var sensed = WatchesInstead?.LowCelsius ?? zoneAirCelsius;
        Ask(sensed, seconds);
        MixedCelsius = Description.OutdoorAir ? Damper.Mix(ReturnCelsius, outside.OutdoorCelsius, AskedCelsius) : ReturnCelsius;
        Compressor?.Advance(sensed, setpointCelsius, outside.OutdoorCelsius, Fan.Powered, seconds);
        Command(seconds);
        duct.Pass(LeavingCelsius(outside.ChilledWaterCelsius) + Fan.HeatKelvin);
    }

    private void Ask(double sensedCelsius, double seconds)
    {
        if (ThermostatBandKelvin <= 0)
        {
            AskedCelsius = Loop.Update(SetpointCelsius - sensedCelsius, ColdestCelsius, WarmestCelsius, seconds);
            return;
        }

        if (sensedCelsius > SetpointCelsius + (ThermostatBandKelvin / 2)) thermostatCools = true;
        if (sensedCelsius < SetpointCelsius - (ThermostatBandKelvin / 2)) thermostatCools = false;
        AskedCelsius = thermostatCools ? ColdestCelsius : ReturnCelsius + Fan.HeatKelvin;
    }

    private void Command(double seconds)
    {
        var leaving = AskedCelsius - SupplyFan.DesignHeatKelvin;
        var cooling = Compressor is { } stage
            ? (stage.Running ? 1.0 : 0.0)
            : Share(MixedCelsius - leaving, MixedCelsius - (ColdestCelsius - SupplyFan.DesignHeatKelvin));
        CoolingValve.Command = ManualCommand ?? cooling;
        HeatingValve.Command = Math.Max(HeatingOverlap, Compressor is null ? Share(leaving - MixedCelsius, HeaterKelvin) : 0);
        CoolingValve.Advance(seconds);
        HeatingValve.Advance(seconds);
    }

    // Less air over the same coil leaves it colder, but never colder than the water.
    private double LeavingCelsius(double chilledWaterCelsius)
    {
        var floor = chilledWaterCelsius + ApproachKelvin + LostCoolingKelvin;
        var share = (Compressor?.CapacityShare ?? CoolingValve.FlowShare) * CoilShare;
        var drop = share * (MixedCelsius - floor) * (1.0 + (DropAtLowFlow * (1.0 - Fan.FlowShare)));
        var cooled = MixedCelsius - Math.Min(drop, MixedCelsius - chilledWaterCelsius - 1.0);
        return cooled + (HeatingValve.FlowShare * HeaterKelvin / Math.Max(0.4, Fan.FlowShare));
    }

    private static double Share(double part, double whole) => whole <= 0.1 ? 0 : Math.Clamp(part / whole, 0, 1);
}
