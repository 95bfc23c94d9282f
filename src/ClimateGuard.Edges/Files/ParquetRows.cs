using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sensors;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>One row of a Parquet file to a judged reading, or to what is wrong with it.</summary>
/// <remarks>Words are looked up once for each that follows another: rows of one word share its memory. No allocation for a sound row.</remarks>
internal sealed class ParquetRows
{
    private readonly Cell cell;
    private readonly SensorDecoding[] sensors;
    private readonly Dictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> indexById;
    private readonly WordMemory<UnitConversion>[] units;
    private readonly WordMemory<Trust> trusts;
    private readonly WordMemory<TrustReason> reasons;
    private ReadOnlyMemory<char> lastId;
    private int lastSensor = -1;

    public ParquetRows(Cell cell)
    {
        this.cell = cell;
        sensors = [.. cell.Sensors.Select(sensor => new SensorDecoding(sensor))];
        indexById = cell.Sensors.Select((sensor, index) => (sensor.Id, index)).ToDictionary(pair => pair.Id, pair => pair.index, StringComparer.Ordinal)
            .GetAlternateLookup<ReadOnlySpan<char>>();
        units = [.. sensors.Select(sensor => new WordMemory<UnitConversion>(word => word.IsEmpty ? sensor.Declared : sensor.UnitOf(word)))];
        trusts = new WordMemory<Trust>(TrustWords.TrustOf);
        reasons = new WordMemory<TrustReason>(TrustWords.ReasonOf);
    }

    /// <summary>How many rows had no value.</summary>
    public long WithoutValue { get; private set; }

    /// <summary>Reads a row; one without a value comes as not a number.</summary>
    /// <returns>What is wrong with it, or null.</returns>
    public string? Read(ParquetGroup group, int index, out TrustedReading row)
    {
        row = default;
        if (Moment("time", group.Times, index, out var time) is { } implausible)
        {
            return implausible;
        }

        var sensor = SensorOf(group.Sensors[index]);
        if (sensor < 0)
        {
            return ReadingRows.UnknownSensor(group.Sensors[index].ToString(), cell);
        }

        if (units[sensor].Of(group.Units[index]) is not { } conversion)
        {
            return ReadingRows.UnknownUnit(group.Units[index].ToString(), cell.Sensors[sensor], sensors[sensor]);
        }

        var problem = Values(group, index, new Reading(sensor, time, double.NaN), conversion, out row);
        WithoutValue += problem is null && double.IsNaN(row.Value) ? 1 : 0;
        return problem;
    }

    private static string? Moment(string name, ParquetColumn<DateTime> column, int index, out long time)
    {
        // A stated time is UTC, whatever its kind says.
        time = (column[index].Ticks - DateTime.UnixEpoch.Ticks) / TimeSpan.TicksPerMillisecond;
        return column.Has(index) && Rfc3339.IsPlausible(time)
            ? null
            : $"{name} is {(column.Has(index) ? column[index].ToString("O", CultureInfo.InvariantCulture) : "missing")}; a time between 2000 and 2100 is allowed";
    }

    private int SensorOf(in ReadOnlyMemory<char> id)
    {
        if (lastSensor < 0 || (!id.Equals(lastId) && !id.Span.SequenceEqual(lastId.Span)))
        {
            lastSensor = indexById.TryGetValue(id.Span, out var index) ? index : -1;
            lastId = id;
        }

        return lastSensor;
    }

    private string? Values(ParquetGroup group, int index, Reading place, UnitConversion unit, out TrustedReading row)
    {
        row = default;
        var value = group.Values.Has(index) ? unit.ToCanonical(group.Values[index]) : double.NaN;
        if (group.Values.Has(index) && sensors[place.Sensor].Objection(value) is { } objection)
        {
            return $"value: {objection}";
        }

        if (!group.Judged)
        {
            row = new TrustedReading(place with { Value = value }, value, Trust.Accepted, TrustReason.None);
            return null;
        }

        var raw = group.Raws.Has(index) ? unit.ToCanonical(group.Raws[index]) : double.NaN;
        if (group.Raws.Has(index) && sensors[place.Sensor].Objection(raw) is { } refused)
        {
            return $"raw: {refused}";
        }

        var stamp = place.EpochMilliseconds;
        if (group.Stamped && group.Stamps.Has(index) && Moment("stamp", group.Stamps, index, out stamp) is { } implausible)
        {
            return implausible;
        }

        var sent = place with { Value = raw, EpochMilliseconds = stamp };
        return trusts.Of(group.Trusts[index]) is { } trust && reasons.Of(group.Reasons[index]) is { } reason
            ? ReadingRows.Judged(sent, place.EpochMilliseconds, value, trust, reason, out row)
            : ReadingRows.Judged(sent, place.EpochMilliseconds, value, Utf8(group.Trusts[index]), Utf8(group.Reasons[index]), out row);
    }

    private static byte[] Utf8(in ReadOnlyMemory<char> word) => Encoding.UTF8.GetBytes(word.ToArray());

    /// <summary>What the word of the row before meant.</summary>
    private sealed class WordMemory<T>(WordMemory<T>.Meaning meaning)
        where T : struct
    {
        private ReadOnlyMemory<char> word;
        private T? known = meaning([]);

        public delegate T? Meaning(ReadOnlySpan<byte> word);

        /// <summary>What a word means, or null when it means nothing.</summary>
        public T? Of(in ReadOnlyMemory<char> next)
        {
            if (!next.Equals(word) && !next.Span.SequenceEqual(word.Span))
            {
                known = meaning(Utf8(next));
                word = next;
            }

            return known;
        }
    }
}
