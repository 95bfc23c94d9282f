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
    /// <param name="raw">The reading, with the stamp as sent.</param>
    /// <param name="time">Event time, in ms since 1970.</param>
    /// <param name="value">The value in use, or not a number.</param>
    /// <param name="word">The word of the trust.</param>
    /// <param name="because">The word of the reason.</param>
    /// <param name="reading">Set to the row.</param>
    internal static string? Judged(
        Reading raw, long time, double value, ReadOnlySpan<byte> word, ReadOnlySpan<byte> because, out TrustedReading reading)
    {
        reading = default;
        if (TrustWords.TrustOf(word) is not { } trust)
        {
            return $"trust is {Shown(word)}; {TrustWords.AllowedTrust} are allowed";
        }

        if (TrustWords.ReasonOf(because) is not { } reason)
        {
            return $"reason is {Shown(because)}; nothing or {TrustWords.AllowedReason} are allowed";
        }

        return Judged(raw, time, value, trust, reason, out reading);
    }

    /// <inheritdoc cref="Judged(Reading, long, double, ReadOnlySpan{byte}, ReadOnlySpan{byte}, out TrustedReading)"/>
    internal static string? Judged(in Reading raw, long time, double value, Trust trust, TrustReason reason, out TrustedReading reading)
    {
        var problem = Judged(raw, value, trust, reason, out reading);
        reading = reading with { ClockAheadMilliseconds = raw.EpochMilliseconds - time };
        return problem;
    }

    private static string Shown(ReadOnlySpan<byte> bytes) => $"\"{Printable.Start(bytes, 60)}\"";

    private string? Place(ReadOnlySpan<byte> line, ReadOnlySpan<Range> fields, out int sensor, out long time)
    {
        sensor = -1;
        if (Moment("time", line[fields[ReadingColumns.Time]], out time) is { } problem)
        {
            return problem;
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

    private static string? Moment(string name, ReadOnlySpan<byte> text, out long time)
    {
        time = 0;
        if (!Rfc3339.TryParse(text, out var moment))
        {
            return $"{name} is {Shown(text)}; a time with its offset is allowed, such as 2026-01-10T08:00:00Z or 2026-01-10T09:00:00.250+01:00 (RFC 3339)";
        }

        time = moment.ToUnixTimeMilliseconds();
        return Rfc3339.IsPlausible(time) ? null : $"{name} is {Shown(text)}; a time between 2000 and 2100 is allowed";
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
        var stamp = time;
        var stamped = line[fields[ReadingColumns.Stamp]];
        problem ??= stamped.IsEmpty ? null : Moment("stamp", stamped, out stamp);
        return problem ?? Judged(
            new Reading(index, stamp, raw), time, value, line[fields[ReadingColumns.Trust]], line[fields[ReadingColumns.Reason]], out reading);
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
