using System.Globalization;
using System.Text;
using System.Text.Unicode;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sensors;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>One row of a file of readings to a judged reading, or to what is wrong with it.</summary>
internal sealed class ReadingRows
{
    private const int LongestId = 256;
    private const NumberStyles Number = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;

    private readonly Cell cell;
    private readonly ReadingColumns columns;
    private readonly SensorDecoding[] sensors;
    private readonly Dictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> indexById;

    public ReadingRows(Cell cell, ReadingColumns columns)
    {
        this.cell = cell;
        this.columns = columns;
        sensors = [.. cell.Sensors.Select(sensor => new SensorDecoding(sensor))];
        indexById = cell.Sensors.Select((sensor, index) => (sensor.Id, index)).ToDictionary(pair => pair.Id, pair => pair.index, StringComparer.Ordinal)
            .GetAlternateLookup<ReadOnlySpan<char>>();
    }

    /// <summary>What became of a row.</summary>
    internal enum Outcome
    {
        /// <summary>A reading.</summary>
        Sound,

        /// <summary>The sensor had no value then.</summary>
        WithoutValue,

        /// <summary>Not a reading.</summary>
        Bad,
    }

    /// <summary>Reads a row.</summary>
    public Outcome Read(ReadOnlySpan<byte> line, out TrustedReading reading, out string? problem)
    {
        reading = default;
        Span<Range> fields = stackalloc Range[ReadingColumns.Known];
        fields.Clear();
        var count = columns.Split(line, fields);
        problem = count < 0 ? $"a quote is not closed on its line: {Shown(line)}"
            : count != columns.Count
                ? $"{count} fields under {columns.Count} columns{(count > columns.Count ? "; is there a decimal comma? a decimal point is needed" : "")}: {Shown(line)}"
            : Place(line, fields, out var sensor, out var time) ?? Values(line, fields, sensor, time, out reading);
        return problem is not null ? Outcome.Bad : double.IsNaN(reading.Value) ? Outcome.WithoutValue : Outcome.Sound;
    }

    /// <summary>What is wrong when a sensor is not in the plant file.</summary>
    internal static string UnknownSensor(string id, Cell cell)
    {
        var wanted = Printable.Clean(id, 80);
        return $"sensor \"{wanted}\" is not in the plant file; {NearestNames.Hint(wanted, [.. cell.Sensors.Select(known => known.Id)])}";
    }

    /// <summary>What is wrong when a sensor does not have a unit.</summary>
    internal static string UnknownUnit(string unit, Sensor sensor, SensorDecoding decoding) =>
        $"unit is \"{Printable.Clean(unit, 60)}\"; for {sensor.Id}, a sensor of quantity {sensor.Quantity}, {decoding.AllowedUnits} are allowed";

    /// <summary>Puts a row with the judgement of a store together.</summary>
    /// <returns>What does not hold together, or null.</returns>
    internal static string? Judged(
        Reading raw, double value, ReadOnlySpan<byte> word, ReadOnlySpan<byte> because, out TrustedReading reading)
    {
        reading = default;
        if (TrustWords.TrustOf(word) is not { } trust)
        {
            return $"trust is {Shown(word)}; {TrustWords.AllowedTrust} are allowed";
        }

        return TrustWords.ReasonOf(because) is { } reason
            ? Judged(raw, value, trust, reason, out reading)
            : $"reason is {Shown(because)}; nothing or {TrustWords.AllowedReason} are allowed";
    }

    private static string Shown(ReadOnlySpan<byte> bytes) => $"\"{Printable.Start(bytes, 60)}\"";

    private string? Place(ReadOnlySpan<byte> line, ReadOnlySpan<Range> fields, out int sensor, out long time)
    {
        (sensor, time) = (-1, 0);
        var stamp = line[fields[ReadingColumns.Time]];
        if (!Rfc3339.TryParse(stamp, out var moment))
        {
            return $"time is {Shown(stamp)}; a time with its offset is allowed, such as 2026-01-10T08:00:00Z or 2026-01-10T09:00:00.250+01:00 (RFC 3339)";
        }

        time = moment.ToUnixTimeMilliseconds();
        if (!Rfc3339.IsPlausible(time))
        {
            return $"time is {Shown(stamp)}; a time between 2000 and 2100 is allowed";
        }

        var name = line[fields[ReadingColumns.Sensor]];
        Span<char> id = stackalloc char[LongestId];
        if (name.Length <= LongestId && Utf8.ToUtf16(name, id, out _, out var length) == System.Buffers.OperationStatus.Done
            && indexById.TryGetValue(id[..length], out sensor))
        {
            return null;
        }

        return UnknownSensor(Encoding.UTF8.GetString(name[..Math.Min(name.Length, LongestId)]), cell);
    }

    // A reading without a value comes back as not a number.
    private string? Values(ReadOnlySpan<byte> line, ReadOnlySpan<Range> fields, int index, long time, out TrustedReading reading)
    {
        reading = default;
        var sensor = sensors[index];
        var named = line[fields[ReadingColumns.Unit]];
        if ((named.IsEmpty ? sensor.Declared : sensor.UnitOf(named)) is not { } unit)
        {
            return UnknownUnit(Encoding.UTF8.GetString(named[..Math.Min(named.Length, LongestId)]), cell.Sensors[index], sensor);
        }

        var problem = Value("value", line[fields[ReadingColumns.Value]], sensor, unit, out var value);
        if (problem is not null || !columns.Judged)
        {
            reading = new TrustedReading(new Reading(index, time, value), value, Trust.Accepted, TrustReason.None);
            return problem;
        }

        problem = Value("raw", line[fields[ReadingColumns.Raw]], sensor, unit, out var raw);
        if (problem is not null)
        {
            return problem;
        }

        return Judged(
            new Reading(index, time, raw), value, line[fields[ReadingColumns.Trust]], line[fields[ReadingColumns.Reason]], out reading);
    }

    private static string? Judged(Reading raw, double value, Trust trust, TrustReason reason, out TrustedReading reading)
    {
        var quarantined = trust == Trust.Quarantined;
        reading = new TrustedReading(
            double.IsNaN(raw.Value) ? raw with { Value = value } : raw, quarantined ? raw.Value : value, trust, reason);
        return quarantined && reason == TrustReason.None ? "a quarantined row needs its reason"
            : quarantined && double.IsNaN(raw.Value) ? "a quarantined row needs its raw value"
            : quarantined && !double.IsNaN(value) ? "a quarantined row has a raw value and no value, so that nobody takes it for good"
            : !quarantined && double.IsNaN(value) && !double.IsNaN(raw.Value) ? $"a row that is {TrustWords.Of(trust)} needs its value"
            : null;
    }

    private static string? Value(string name, ReadOnlySpan<byte> text, SensorDecoding sensor, UnitConversion unit, out double value)
    {
        value = double.NaN;
        if (text.IsEmpty)
        {
            return null;
        }

        if (sensor.TryReadWord(text, out var state))
        {
            value = state ? 1 : 0;
            return null;
        }

        if (!double.TryParse(text, Number, CultureInfo.InvariantCulture, out var number))
        {
            var comma = text.IndexOf((byte)',') >= 0 ? " (a decimal comma?)" : "";
            return $"{name} is {Shown(text)}{comma}; a number with a decimal point is allowed, such as 20.137, or nothing for no value";
        }

        value = unit.ToCanonical(number);
        return sensor.Objection(value) is { } objection ? $"{name} is {Shown(text)}: {objection}" : null;
    }
}
