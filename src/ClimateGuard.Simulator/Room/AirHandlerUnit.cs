using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>An air handler that recirculates the air of a zone through a coil, with the faults that can be laid on it.</summary>
public sealed class AirHandlerUnit
{
    private const double ColdestCelsius = 13.0;
    private const double WarmestCelsius = 26.0;
    private const double CleanFilterPascals = 120.0;
    private const double CubicMetresPerHourPerWattPerKelvin = 18_000.0 / 6_050.0;
    private readonly SupplyDuct duct;
    private VirtualZone? leader;
    private int zonesServed;

    internal AirHandlerUnit(AirHandler description, double fullFlowWattsPerKelvin, Chance chance, double scale, TimeSpan step)
    {
        Description = description;
        FullFlowWattsPerKelvin = chance.Perturbed(fullFlowWattsPerKelvin, scale / 2);
        Loop = new PiLoop(18.0, chance.Perturbed(2.0, scale), TimeSpan.FromSeconds(chance.Perturbed(1500, scale)));
        duct = new SupplyDuct(TimeSpan.FromMinutes(3), TimeSpan.FromSeconds(chance.Perturbed(240, scale)), step, 18.0);
    }

    /// <summary>The description.</summary>
    public AirHandler Description { get; }

    /// <summary>The loop on zone air.</summary>
    public PiLoop Loop { get; }

    /// <summary>ṁ·cp at full flow, in W/K.</summary>
    public double FullFlowWattsPerKelvin { get; }

    /// <summary>Whether the fan runs.</summary>
    public bool FanOn { get; set; } = true;

    /// <summary>What the filter lets through of full flow, in (0, 1].</summary>
    public double FilterShare { get; set; } = 1.0;

    /// <summary>How much the coldest supply has risen above 13 °C, in K: warm water or little of it.</summary>
    public double LostCoolingKelvin { get; set; }

    /// <summary>The cooling valve stuck at a position from 0 to 1, or null when it moves.</summary>
    public double? StuckAt { get; set; }

    /// <summary>Cooling that leaks through a closed valve, in K of supply.</summary>
    public double LeakKelvin { get; set; }

    /// <summary>ṁ·cp now, in W/K.</summary>
    public double WattsPerKelvin => FanOn ? FullFlowWattsPerKelvin * FilterShare : 0;

    internal double WattsPerKelvinToEachZone => WattsPerKelvin / Math.Max(1, zonesServed);

    /// <summary>Supply air, in °C; without flow the sensor sees the air of the room seep back.</summary>
    public double SupplyCelsius => FanOn ? duct.Celsius : ReturnCelsius;

    /// <summary>Return air, in °C.</summary>
    public double ReturnCelsius { get; private set; } = 20.0;

    /// <summary>Command of the cooling valve, 0 to 1.</summary>
    public double CoolingCommand { get; private set; }

    /// <summary>Command of the heater, 0 to 1.</summary>
    public double HeatingCommand { get; private set; }

    /// <summary>Supply temperature asked for, in °C.</summary>
    public double AskedCelsius { get; private set; } = 18.0;

    /// <summary>Pressure drop over the filter, in Pa.</summary>
    public double FilterPascals => FanOn ? CleanFilterPascals * (1.0 + (4.0 * (1.0 - FilterShare))) : 0;

    /// <summary>Air flow, in m³/h.</summary>
    public double CubicMetresPerHour => WattsPerKelvin * CubicMetresPerHourPerWattPerKelvin;

    // The first zone it serves leads its loop; its air is shared equally.
    internal void Serve(VirtualZone zone)
    {
        leader ??= zone;
        zonesServed++;
    }

    internal bool IsLedBy(VirtualZone zone) => ReferenceEquals(leader, zone);

    internal void Control(double setpointCelsius, double zoneAirCelsius, double returnCelsius, double seconds)
    {
        ReturnCelsius = returnCelsius;
        var floor = ColdestCelsius + LostCoolingKelvin;
        AskedCelsius = Loop.Update(setpointCelsius - zoneAirCelsius, floor, WarmestCelsius, seconds);
        CoolingCommand = Share(returnCelsius - AskedCelsius, returnCelsius - floor);
        HeatingCommand = Share(AskedCelsius - returnCelsius, WarmestCelsius - returnCelsius);
        var delivered = StuckAt is { } position ? returnCelsius - (position * (returnCelsius - floor)) : AskedCelsius - LeakKelvin;
        duct.Pass(delivered);
    }

    private static double Share(double part, double whole) => whole <= 0.1 ? 0 : Math.Clamp(part / whole, 0, 1);
}
