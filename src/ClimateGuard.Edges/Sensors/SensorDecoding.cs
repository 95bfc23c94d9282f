using System.Globalization;
using System.Text;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Sensors;

/// <summary>What a decoder of payloads or files needs to know of one sensor, looked up once at the start.</summary>
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

    /// <summary>The units that may be named, as UTF-8.</summary>
    internal (byte[] Name, UnitConversion Conversion)[] Units { get; }

    /// <summary>The same, for messages.</summary>
    internal string AllowedUnits { get; }

    /// <summary>Whether true and false are values.</summary>
    internal bool TakesSwitch { get; }

    /// <summary>Whether the word is true, false, open or closed and the sensor knows such a state.</summary>
    internal bool TryReadWord(ReadOnlySpan<byte> word, out bool state)
    {
        state = Is(word, "open"u8) || Is(word, "true"u8);
        return TakesSwitch && (state || Is(word, "closed"u8) || Is(word, "false"u8));
    }

    /// <summary>The conversion for a unit, or null when the sensor does not have it.</summary>
    internal UnitConversion? UnitOf(ReadOnlySpan<byte> name)
    {
        foreach (var (known, conversion) in Units)
        {
            if (name.SequenceEqual(known))
            {
                return conversion;
            }
        }

        return null;
    }

    /// <summary>Why a value in the canonical unit cannot be one of this sensor, or null when it can.</summary>
    internal string? Objection(double value)
    {
        if (!double.IsFinite(value))
        {
            return "the value is not a finite number (NaN or infinity); a number such as 20.137 is allowed";
        }

        return Quantity == SensorQuantity.Contact && value is < 0 or > 1
            ? string.Create(CultureInfo.InvariantCulture, $"a contact is {value}; true, false, \"open\", \"closed\" or 0 to 1 are allowed")
            : null;
    }

    private static bool Is(ReadOnlySpan<byte> word, ReadOnlySpan<byte> expected) => Ascii.EqualsIgnoreCase(word, expected);

    private static string Canonical(string name) => Array.Find(Aliases, alias => alias.Alias == name).Unit ?? name;
}
