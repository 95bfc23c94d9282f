using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sensors;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>What a payload says, gathered key by key; the value is converted at the end, as its unit may follow it.</summary>
internal struct ReadingFields
{
    public ReadingFields()
    {
    }

    internal double Value { get; private set; }

    internal bool HasValue { get; private set; }

    internal bool IsSwitch { get; private set; }

    internal long EpochMilliseconds { get; private set; }

    internal bool HasTime { get; private set; }

    internal long Sequence { get; private set; } = -1;

    internal required UnitConversion Unit { get; set; }

    internal void SetNumber(double number)
    {
        Value = number;
        HasValue = true;
        IsSwitch = false;
    }

    internal void SetSwitch(bool state)
    {
        Value = state ? 1 : 0;
        HasValue = true;
        IsSwitch = true;
    }

    /// <summary>Reads a JSON object.</summary>
    /// <returns>The reason why it cannot be read, or null.</returns>
    /// <exception cref="JsonException">It is not JSON.</exception>
    /// <exception cref="InvalidOperationException">A text in it is no text.</exception>
    internal string? ReadObject(ReadOnlySpan<byte> payload, SensorDecoding sensor)
    {
        var reader = new Utf8JsonReader(payload);
        reader.Read();
        string? reason = null;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("v"u8))
            {
                reader.Read();
                reason ??= ReadValue(ref reader, sensor);
            }
            else if (reader.ValueTextEquals("t"u8))
            {
                reader.Read();
                reason ??= ReadTime(ref reader);
            }
            else if (reader.ValueTextEquals("u"u8))
            {
                reader.Read();
                reason ??= ReadUnit(ref reader, sensor);
            }
            else if (reader.ValueTextEquals("q"u8))
            {
                reader.Read();
                reason ??= ReadSequence(ref reader);
            }
            else
            {
                reader.Read();
            }

            reader.Skip();
        }

        // One more step finds what follows the object.
        reader.Read();
        return reason;
    }

    private string? ReadValue(ref Utf8JsonReader reader, SensorDecoding sensor)
    {
        switch (reader.TokenType)
        {
            case JsonTokenType.Number when reader.TryGetDouble(out var number):
                SetNumber(number);
                return null;
            case JsonTokenType.True or JsonTokenType.False when sensor.TakesSwitch:
                SetSwitch(reader.TokenType == JsonTokenType.True);
                return null;
            case JsonTokenType.String when !reader.ValueIsEscaped && sensor.TryReadWord(reader.ValueSpan, out var state):
                SetSwitch(state);
                return null;
            case JsonTokenType.Null:
                return "\"v\" is null; a sensor without a value sends nothing";
            default:
                return $"\"v\" is {Found(ref reader)}; a JSON number with a decimal point and without quotes is allowed, such as 20.137"
                    + (sensor.TakesSwitch ? ", or true, false, \"open\", \"closed\"" : "");
        }
    }

    private string? ReadTime(ref Utf8JsonReader reader)
    {
        HasTime = false;
        switch (reader.TokenType)
        {
            case JsonTokenType.Null:
                return null;
            case JsonTokenType.Number when reader.TryGetInt64(out var whole):
                EpochMilliseconds = whole;
                break;
            case JsonTokenType.Number when reader.TryGetDouble(out var number) && Math.Abs(number) < 1e15:
                EpochMilliseconds = (long)Math.Floor(number);
                break;
            case JsonTokenType.String when !reader.ValueIsEscaped && Rfc3339.TryParse(reader.ValueSpan, out var time):
                EpochMilliseconds = time.ToUnixTimeMilliseconds();
                break;
            default:
                return $"\"t\" is {Found(ref reader)}; {Rfc3339.Allowed} is allowed";
        }

        HasTime = Rfc3339.IsPlausible(EpochMilliseconds);
        if (HasTime)
        {
            return null;
        }

        var hint = Rfc3339.IsPlausible(EpochMilliseconds * 1000) && EpochMilliseconds is > 0 and < long.MaxValue / 1000
            ? " (these look like seconds: milliseconds are needed)"
            : "";
        return $"\"t\" is {Found(ref reader)}{hint}; {Rfc3339.Allowed} is allowed";
    }

    private string? ReadUnit(ref Utf8JsonReader reader, SensorDecoding sensor)
    {
        if (reader.TokenType == JsonTokenType.Null)
        {
            Unit = sensor.Declared;
            return null;
        }

        if (reader.TokenType == JsonTokenType.String)
        {
            foreach (var (name, conversion) in sensor.Units)
            {
                if (reader.ValueTextEquals(name))
                {
                    Unit = conversion;
                    return null;
                }
            }
        }

        return $"unit \"u\" is {Found(ref reader)}; for {Words(sensor)} {sensor.AllowedUnits} are allowed";
    }

    private string? ReadSequence(ref Utf8JsonReader reader)
    {
        if (reader.TokenType == JsonTokenType.Null)
        {
            Sequence = -1;
            return null;
        }

        if (reader.TokenType == JsonTokenType.Number && reader.TryGetInt64(out var sequence) && sequence >= 0)
        {
            Sequence = sequence;
            return null;
        }

        return $"\"q\" is {Found(ref reader)}; a sequence number, whole and not negative, is allowed";
    }

    private static string Words(SensorDecoding sensor) => $"a sensor of quantity {sensor.Quantity}";

    private static string Found(ref Utf8JsonReader reader) => reader.TokenType switch
    {
        JsonTokenType.StartObject => "an object",
        JsonTokenType.StartArray => "an array",
        JsonTokenType.String => $"\"{Printable.Start(reader.ValueSpan, 40)}\"",
        _ => Printable.Start(reader.ValueSpan, 40),
    };
}
