using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Pages.Words;

/// <summary>Sensors in words.</summary>
public static class SensorWords
{
    /// <summary>How far a sensor can be used.</summary>
    public static string Word(SensorState state) => state switch
    {
        SensorState.Silent => "silent",
        SensorState.Fresh => "fresh",
        SensorState.Late => "late, still used",
        SensorState.Invalid => "too old, not used",
        SensorState.Quarantined => "set aside",
        _ => "not known",
    };

    /// <summary>Whether a person should look at it.</summary>
    public static bool NeedsAPerson(SensorState state) => state is not (SensorState.Fresh or SensorState.Late);

    /// <summary>Whether a person should look at it: it cannot be used, or something is wrong with it though it is.</summary>
    public static bool NeedsAPerson(SensorSnapshot sensor)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        return NeedsAPerson(sensor.State) || sensor.Condition is not (TrustReason.None or TrustReason.Recalibrated);
    }

    /// <summary>Where it sits, such as <c>coolant, M3</c>.</summary>
    public static string Place(Sensor sensor)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        var place = sensor.Place == SensorPlace.ChilledWater ? "chilled water" : Lower(sensor.Place.ToString());
        var owner = sensor.Machine ?? sensor.AirHandler ?? (sensor.Zone is { } zone ? "zone " + zone : null);
        return owner is null ? place : $"{place}, {owner}";
    }

    /// <summary>A value with the canonical unit of its quantity; a dash when there is none.</summary>
    public static string Value(SensorQuantity quantity, double value) => !double.IsFinite(value) ? "–" : quantity switch
    {
        SensorQuantity.Temperature => Numbers.Celsius(value),
        SensorQuantity.RelativeHumidity => $"{Numbers.Micrometres(value)} %",
        SensorQuantity.Contact => value >= 0.5 ? "open" : "closed",
        SensorQuantity.Fraction => $"{Numbers.Micrometres(value * 100)} %",
        SensorQuantity.Pressure => $"{Numbers.Micrometres(value)} Pa",
        SensorQuantity.Flow => $"{Numbers.Micrometres(value)} m³/h",
        SensorQuantity.Power => $"{Numbers.Micrometres(value)} kW",
        SensorQuantity.Speed => $"{Numbers.Micrometres(value)} 1/min",
        _ => Numbers.Plain(value),
    };

    private static string Lower(string name) => name.ToLowerInvariant();
}
