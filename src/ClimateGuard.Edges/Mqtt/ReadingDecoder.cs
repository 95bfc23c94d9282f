using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sensors;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Bytes of a payload to a reading in the canonical unit, or to a reason. Never throws, never guesses.</summary>
/// <remarks>
/// A bare number (<c>20.137</c>) or a JSON object (<c>{"t":…,"v":20.137,"u":"C","q":7}</c>); for contacts also true, false, open, closed.
/// Unknown keys are ignored; of a key given twice the last wins, and each must be valid. No allocation when it succeeds.
/// Immutable, so safe across threads.
/// </remarks>
public sealed class ReadingDecoder
{
    /// <summary>The largest payload that is looked at, in bytes.</summary>
    public const int MostBytes = 64 * 1024;

    private const NumberStyles BareNumber =
        NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;

    private const string AllowedPayload = "a number such as 20.137, or {\"t\":1768032000000,\"v\":20.137,\"u\":\"C\"}, is allowed";

    private readonly SensorDecoding[] sensors;

    /// <summary>A decoder for the sensors of a cell.</summary>
    public ReadingDecoder(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        sensors = [.. cell.Sensors.Select(sensor => new SensorDecoding(sensor))];
    }

    /// <summary>Reads one payload.</summary>
    /// <param name="sensor">Index of the sensor in the cell.</param>
    /// <param name="payload">The payload; of more than 64 KiB not one byte is copied.</param>
    /// <param name="arrivedAt">Stands in when the payload names no time.</param>
    public ReadingResult Decode(int sensor, in ReadOnlySequence<byte> payload, DateTimeOffset arrivedAt)
    {
        if (payload.Length > MostBytes)
        {
            return Refused($"the payload has {payload.Length} bytes; at most {MostBytes} are read");
        }

        return Decode(sensor, payload.IsSingleSegment ? payload.FirstSpan : payload.ToArray(), arrivedAt);
    }

    /// <summary>Reads one payload.</summary>
    /// <param name="sensor">Index of the sensor in the cell.</param>
    /// <param name="payload">The payload.</param>
    /// <param name="arrivedAt">Stands in when the payload names no time.</param>
    public ReadingResult Decode(int sensor, ReadOnlySpan<byte> payload, DateTimeOffset arrivedAt)
    {
        if (payload.Length > MostBytes)
        {
            return Refused($"the payload has {payload.Length} bytes; at most {MostBytes} are read");
        }

        payload = Trim(payload.StartsWith("\uFEFF"u8) ? payload[3..] : payload);
        if (payload.IsEmpty)
        {
            return Refused($"the payload is empty; {AllowedPayload}");
        }

        if (!Utf8.IsValid(payload) || payload.Contains((byte)0))
        {
            return Refused($"the payload is not UTF-8 text; {AllowedPayload}");
        }

        var fields = new ReadingFields { Unit = sensors[sensor].Declared };
        string? reason;
        try
        {
            reason = payload[0] == (byte)'{' ? fields.ReadObject(payload, sensors[sensor]) : ReadBare(payload, sensors[sensor], ref fields);
        }
        catch (JsonException broken)
        {
            reason = $"the payload is not JSON at byte {broken.BytePositionInLine}; {AllowedPayload}";
        }
        catch (InvalidOperationException)
        {
            // An escape such as \ud800 without its other half shows only when the text is compared.
            reason = $"the payload holds an escape that is no character; {AllowedPayload}";
        }

        return reason is null ? Finish(sensor, fields, arrivedAt) : Refused(reason);
    }

    private static ReadingResult Refused(string reason) => new(default, false, reason);

    private static ReadOnlySpan<byte> Trim(ReadOnlySpan<byte> payload) => payload.Trim(" \t\r\n"u8);

    private static string? ReadBare(ReadOnlySpan<byte> payload, SensorDecoding sensor, ref ReadingFields fields)
    {
        if (sensor.TryReadWord(payload, out var state))
        {
            fields.SetSwitch(state);
            return null;
        }

        if (double.TryParse(payload, BareNumber, CultureInfo.InvariantCulture, out var number))
        {
            fields.SetNumber(number);
            return null;
        }

        return payload.IndexOf((byte)',') >= 0 && double.TryParse(
            Encoding.UTF8.GetString(payload).Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out _)
            ? $"the payload \"{Printable.Start(payload, 40)}\" has a decimal comma; a decimal point is allowed, such as 20.137"
            : $"the payload \"{Printable.Start(payload, 40)}\" is no number; {AllowedPayload}";
    }

    private ReadingResult Finish(int index, in ReadingFields fields, DateTimeOffset arrivedAt)
    {
        if (!fields.HasValue)
        {
            return Refused("\"v\" is missing; a JSON number is needed, such as {\"v\":20.137}");
        }

        // A true or false has no unit to convert from.
        var value = fields.IsSwitch ? fields.Value : fields.Unit.ToCanonical(fields.Value);
        if (sensors[index].Objection(value) is { } objection)
        {
            return Refused(objection);
        }

        var time = fields.HasTime ? fields.EpochMilliseconds : arrivedAt.ToUnixTimeMilliseconds();
        return new ReadingResult(new Reading(index, time, value, fields.Sequence), !fields.HasTime, null);
    }
}
