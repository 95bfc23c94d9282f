using System.Globalization;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using CsvHelper;

namespace ClimateGuard.Edges.Files;

/// <summary>One row of a file of results, read by the mapping of its device; what is wrong with it is told with its line.</summary>
internal sealed class ResultRow(CsvReader row, DeviceMapping mapping, IReadOnlyDictionary<string, int> columns, int line, List<string> problems)
{
    private readonly int before = problems.Count;

    /// <summary>Nothing was wrong so far.</summary>
    public bool Good => problems.Count == before;

    public string Text(string name)
    {
        var text = columns.TryGetValue(name, out var column) ? row.GetField(column) ?? "" : "";
        return text.Length > 0 ? text : mapping.Fixed.GetValueOrDefault(name, "");
    }

    public void Refuse(string problem) => problems.Add($"line {line}: {problem}");

    /// <summary>A length in µm; null when the field is blank, which is not zero.</summary>
    public double? Micrometres(string name) => Number(name, $"a number in {mapping.UnitName} with a decimal {(mapping.Decimal == ',' ? "comma" : "point")}") * Factor();

    public double? Celsius(string name)
    {
        var celsius = mapping.Celsius(Number(name, $"a temperature in °{mapping.TemperatureUnit}"));
        if (celsius is { } stated && !InspectionCelsius.IsPossible(stated))
        {
            Refuse($"{Header(name)} is {stated.ToString("0.#", CultureInfo.InvariantCulture)} °C; {InspectionCelsius.Range} are allowed: is the unit right?");
        }

        return celsius;
    }

    public DateTimeOffset? Time()
    {
        var text = Text("time");
        if (text.Length == 0)
        {
            return null;
        }

        var time = LocalTimes.Read(text, mapping.Time, out var problem);
        if (time is null)
        {
            Refuse(problem);
        }

        return time;
    }

    public DeviceCompensation Compensation()
    {
        var word = Text("compensation");
        if (word.Length == 0)
        {
            return mapping.Compensation ?? DeviceCompensation.Unknown;
        }

        if (CompensationWords.Read(word) is { } mode)
        {
            return mode;
        }

        Refuse($"compensation is \"{Printable.Clean(word, 40)}\"; {CompensationWords.Allowed} is allowed");
        return DeviceCompensation.Unknown;
    }

    public int? Hole(int? named)
    {
        var text = Text("hole");
        if (text.Length == 0)
        {
            return named;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var hole) && hole is >= 1 and <= 100_000)
        {
            return hole;
        }

        Refuse($"hole is \"{Printable.Clean(text, 40)}\"; the number of the hole from 1, or blank, is allowed");
        return null;
    }

    private double Factor()
    {
        var unit = Text("unit");
        if (unit.Length == 0)
        {
            return mapping.MicrometresPerUnit;
        }

        if (DeviceMappingReader.MicrometresPer(unit) is { } factor)
        {
            return factor;
        }

        Refuse($"unit is \"{Printable.Clean(unit, 40)}\", which is not known; {DeviceMappingReader.AllowedUnits} are allowed");
        return double.NaN;
    }

    private double? Number(string name, string allowed)
    {
        var text = Text(name);
        if (text.Length == 0)
        {
            return null;
        }

        // With a decimal comma a point could only be a separator of thousands: 1.234 must not become 1234.
        var plain = mapping.Decimal == ',' ? (text.Contains('.', StringComparison.Ordinal) ? "" : text.Replace(',', '.')) : text;
        if (double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) && Math.Abs(number) <= 1e7)
        {
            return number;
        }

        Refuse($"{Header(name)} is \"{Printable.Clean(text, 40)}\"; {allowed}, or blank for not measured, is allowed");
        return null;
    }

    private string Header(string name) => mapping.Columns.GetValueOrDefault(name, name);
}
