using System.Text;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>What the decoder needs to know of one sensor, looked up once at the start.</summary>
internal sealed class SensorDecoding
{
    private static readonly (string Alias, string Unit)[] Aliases =
        [("°C", SensorUnits.Celsius), ("°F", SensorUnits.Fahrenheit), ("m³/h", "m3/h"), ("m³/s", "m3/s"), ("rpm", "1/min")];

    internal SensorDecoding(Sensor sensor)
    {
        Quantity = sensor.Quantity;
        var units = SensorUnits.ByQuantity[sensor.Quantity];

        // A declared unit that the quantity does not have is a mistake the plant file check reports; the canonical one stands in.
        var declared = units.Contains(sensor.Unit) ? sensor.Unit : units[0];
        Declared = UnitConversion.Find(sensor.Quantity, declared, declared)!.Value;
        var named = units
            .Concat(Aliases.Where(alias => units.Contains(alias.Unit)).Select(alias => alias.Alias))
            .Select(name => (name, UnitConversion.Find(sensor.Quantity, Canonical(name), declared)))
            .Where(pair => pair.Item2 is not null)
            .ToArray();
        Units = [.. named.Select(pair => (Encoding.UTF8.GetBytes(pair.name), pair.Item2!.Value))];
        AllowedUnits = string.Join(", ", named.Select(pair => pair.name));
        TakesSwitch = sensor.Quantity is SensorQuantity.Contact or SensorQuantity.Fraction;
    }

    /// <summary>What it measures.</summary>
    internal SensorQuantity Quantity { get; }

    /// <summary>The conversion of a payload that names no unit.</summary>
    internal UnitConversion Declared { get; }

    /// <summary>The units a payload may name, as UTF-8.</summary>
    internal (byte[] Name, UnitConversion Conversion)[] Units { get; }

    /// <summary>The same, for messages.</summary>
    internal string AllowedUnits { get; }

    /// <summary>Whether true and false are values.</summary>
    internal bool TakesSwitch { get; }

    private static string Canonical(string name) => Array.Find(Aliases, alias => alias.Alias == name).Unit ?? name;
}
