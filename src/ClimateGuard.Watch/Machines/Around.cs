using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>From what is known of a machine's surroundings to what the thermal model takes.</summary>
internal static class Around
{
    private static readonly TimeSpan WetFor = new ThermalNoise().WetFor;

    /// <summary>The surroundings of a machine; coolant that runs but is not known leaves the part in air, and the outlook says so.</summary>
    public static Surroundings Of(Machine machine, MachineState state, DateTimeOffset at)
    {
        var climate = state.Climate;
        var medium = MediumOf(machine, state, at);
        return new(
            climate.AirCelsius,
            medium,
            climate.CoolantCelsius,
            medium == Medium.Wet ? WetBulb(climate) : double.NaN,
            state.SpindleLoad);
    }

    /// <summary>Whether coolant runs over the part but nobody knows how warm it is.</summary>
    public static bool CoolantIsMissing(MachineState state) => state.CoolantOn && double.IsNaN(state.Climate.CoolantCelsius);

    /// <summary>How long the part stays wet from a moment on, zero when it is dry by now; null when the coolant runs or never ran.</summary>
    public static TimeSpan? WetLeft(MachineState state, DateTimeOffset at)
    {
        if (state.WetSince is not { } since)
        {
            return null;
        }

        var left = since + WetFor - at;
        return left > TimeSpan.Zero ? left : TimeSpan.Zero;
    }

    private static Medium MediumOf(Machine machine, MachineState state, DateTimeOffset at)
    {
        if (state.CoolantOn)
        {
            return double.IsNaN(state.Climate.CoolantCelsius) ? Medium.Air : machine.CoolantMedium switch
            {
                CoolantMedium.Mist => Medium.Mist,
                CoolantMedium.Submerged => Medium.Submerged,
                _ => Medium.Flood,
            };
        }

        return WetLeft(state, at) is { } left && left > TimeSpan.Zero && !double.IsNaN(state.Climate.RelativeHumidity) ? Medium.Wet : Medium.Air;
    }

    /// <summary>The wet-bulb temperature of the air; the air itself where its humidity is not known.</summary>
    public static double WetBulb(in LocalClimate climate) => double.IsNaN(climate.RelativeHumidity)
        ? climate.AirCelsius
        : MoistAir.AtRelativeHumidity(
            new Celsius(Math.Clamp(climate.AirCelsius, -20, 60)), Math.Clamp(climate.RelativeHumidity, 1, 100) / 100).WetBulb.Value;
}
