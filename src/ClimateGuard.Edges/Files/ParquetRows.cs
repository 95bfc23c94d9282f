using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sensors;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>One row of a Parquet file to a judged reading, or to what is wrong with it.</summary>
internal sealed class ParquetRows(Cell cell)
{
    private readonly SensorDecoding[] sensors = [.. cell.Sensors.Select(sensor => new SensorDecoding(sensor))];

    /// <summary>How many rows had no value.</summary>
    public long WithoutValue { get; private set; }

    /// <summary>Reads a row; one without a value comes as not a number.</summary>
    /// <returns>What is wrong with it, or null.</returns>
    public string? Read(ParquetGroup group, int index, out TrustedReading row)
    {
        row = default;
        if (group.Times[index] is not { } stamp
            || !Rfc3339.IsPlausible(new DateTimeOffset(DateTime.SpecifyKind(stamp, DateTimeKind.Utc)).ToUnixTimeMilliseconds()))
        {
            return $"time is {group.Times[index]?.ToString("O", CultureInfo.InvariantCulture) ?? "missing"}; a time between 2000 and 2100 is allowed";
        }

        var id = group.Sensors[index] ?? "";
        var sensor = cell.IndexOfSensor(id);
        if (sensor < 0)
        {
            return ReadingRows.UnknownSensor(id, cell);
        }

        var unit = group.Units[index] ?? "";
        if ((unit.Length == 0 ? sensors[sensor].Declared : sensors[sensor].UnitOf(Encoding.UTF8.GetBytes(unit))) is not { } conversion)
        {
            return ReadingRows.UnknownUnit(unit, cell.Sensors[sensor], sensors[sensor]);
        }

        var time = new DateTimeOffset(DateTime.SpecifyKind(stamp, DateTimeKind.Utc)).ToUnixTimeMilliseconds();
        var problem = Values(group, index, new Reading(sensor, time, double.NaN), conversion, out row);
        WithoutValue += problem is null && double.IsNaN(row.Value) ? 1 : 0;
        return problem;
    }

    private string? Values(ParquetGroup group, int index, Reading place, UnitConversion unit, out TrustedReading row)
    {
        row = default;
        var value = group.Values[index] is { } stated ? unit.ToCanonical(stated) : double.NaN;
        if (group.Values[index] is not null && sensors[place.Sensor].Objection(value) is { } objection)
        {
            return $"value: {objection}";
        }

        if (group.Raws is null)
        {
            row = new TrustedReading(place with { Value = value }, value, Trust.Accepted, TrustReason.None);
            return null;
        }

        var raw = group.Raws[index] is { } decoded ? unit.ToCanonical(decoded) : double.NaN;
        if (group.Raws[index] is not null && sensors[place.Sensor].Objection(raw) is { } refused)
        {
            return $"raw: {refused}";
        }

        return ReadingRows.Judged(
            place with { Value = raw }, value, Encoding.UTF8.GetBytes(group.Trusts![index] ?? ""), Encoding.UTF8.GetBytes(group.Reasons![index] ?? ""), out row);
    }
}
