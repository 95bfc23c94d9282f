using System.Globalization;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using CsvHelper;
using CsvHelper.Configuration;

namespace ClimateGuard.Edges.Files;

/// <summary>
/// Reads inspection results as CSV: <c>serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm,uUm,device,compensation,partC,deviceC</c>,
/// or the columns that the mapping of a device names. The whole file or nothing. A blank deviation is not zero: with both components a position is
/// 2·|d|, else the row says nothing and is counted as not measured.
/// </summary>
public static class ResultsFileReader
{
    /// <summary>The most rows that are read.</summary>
    public const int MostRows = 1_000_000;

    private static readonly string[] Needed = ["serial", "part", "operation", "machine", "feature", "deviation"];

    /// <summary>Reads the results of a cell.</summary>
    /// <param name="text">The text of the file.</param>
    /// <param name="cell">The cell that knows machines, parts and features.</param>
    /// <param name="mapping">How the files of the device are read; null for <c>results.csv</c>.</param>
    /// <returns>The values, or every problem with its line; never both.</returns>
    public static InspectionImport Parse(string text, Cell cell, DeviceMapping? mapping = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(cell);
        var how = mapping ?? DeviceMapping.Own;
        var form = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            BadDataFound = null, MissingFieldFound = null, TrimOptions = TrimOptions.Trim, Delimiter = how.Separator.ToString(), DetectDelimiter = false,
            IgnoreBlankLines = true,
        };
        using var rows = new CsvReader(new StringReader(text.TrimStart('\uFEFF')), form);
        var problems = new List<string>();
        return Columns(rows, how, problems) is { } columns
            ? Rows(rows, cell, how, columns, problems)
            : new InspectionImport([], problems);
    }

    private static Dictionary<string, int>? Columns(CsvReader rows, DeviceMapping how, List<string> problems)
    {
        var found = rows.Read();
        while (found && rows.Parser.RawRow < how.HeaderLine)
        {
            found = rows.Read();
        }

        if (!found || !rows.ReadHeader())
        {
            problems.Add($"line {how.HeaderLine}: the file is empty; a header line is needed");
            return null;
        }

        return Columns(rows.HeaderRecord!, how, problems);
    }

    private static Dictionary<string, int>? Columns(string[] headers, DeviceMapping how, List<string> problems)
    {
        var columns = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var (name, header) in how.Columns)
        {
            var at = Array.IndexOf(headers, header);
            if (at >= 0)
            {
                columns[name] = at;
            }
        }

        var needed = how.IsOwn ? Needed : [.. how.Columns.Keys];
        string[] absent = [.. needed.Where(name => !columns.ContainsKey(name)).Select(name => how.Columns[name])];
        if (absent.Length > 0)
        {
            problems.Add($"line {how.HeaderLine}: missing {string.Join(", ", absent)}; found {string.Join(", ", headers.Take(20))}");
            return null;
        }

        if (!how.IsOwn && !Says(how, columns))
        {
            problems.Add("the mapping names no deviation: columns deviation, or actual (with nominal, or the nominal of the plant file), or dx and dy are needed");
            return null;
        }

        return columns;
    }

    private static bool Says(DeviceMapping how, Dictionary<string, int> columns) =>
        columns.ContainsKey("deviation") || columns.ContainsKey("actual") || (columns.ContainsKey("dx") && columns.ContainsKey("dy"));

    private static InspectionImport Rows(CsvReader rows, Cell cell, DeviceMapping how, Dictionary<string, int> columns, List<string> problems)
    {
        var values = new List<InspectionValue>();
        var (count, blank) = (0, 0);
        while (rows.Read() && problems.Count < InspectionImport.MostProblems)
        {
            if (rows.Parser.RawRow < how.FirstRow)
            {
                continue;
            }

            if (++count > MostRows)
            {
                problems.Add($"line {rows.Parser.Row}: more than {MostRows} rows; split the file");
                break;
            }

            var before = problems.Count;
            if (Value(rows, cell, how, columns, problems) is { } value)
            {
                values.Add(value);
            }
            else if (problems.Count == before)
            {
                blank++;
            }
        }

        return problems.Count > 0
            ? new InspectionImport([], problems)
            : new InspectionImport(values, []) { NotMeasured = blank, Notes = blank > 0 ? [$"{blank} rows without a value: not measured, passed over"] : [] };
    }

    private static InspectionValue? Value(CsvReader rows, Cell cell, DeviceMapping how, Dictionary<string, int> columns, List<string> problems)
    {
        var line = rows.Parser.Row;
        var row = new ResultRow(rows, how, columns, line, problems);
        if (rows.Parser.Count != rows.HeaderRecord!.Length)
        {
            // An unquoted decimal comma makes two fields of one number, and each following value lands in the wrong column.
            row.Refuse($"{rows.Parser.Count} fields under {rows.HeaderRecord.Length} column names; is there a decimal comma? {(how.Decimal == '.' ? "a decimal point is needed" : $"columns are separated by \"{how.Separator}\"")}");
            return null;
        }

        var (serial, number, id, machine) = (row.Text("serial"), row.Text("part"), row.Text("feature"), row.Text("machine"));
        var part = cell.FindPart(number);
        var (feature, named) = part is null ? default : PlantNames.Feature(part, id, how);
        if (serial.Length is 0 or > 200)
        {
            row.Refuse("a serial of 1 to 200 characters is needed");
        }
        else if (part is null)
        {
            row.Refuse(PlantNames.NoPart(cell, number));
        }
        else if (feature is null)
        {
            row.Refuse(PlantNames.NoFeature(part, id));
        }
        else if (cell.FindMachine(machine) is null && !(machine.Length == 0 && !how.IsOwn))
        {
            row.Refuse(PlantNames.NoMachine(cell, machine));
        }
        else
        {
            return Measured(row, new InspectionValue(serial, row.Text("operation"), machine, feature, 0) { Part = part.Number, Line = line }, how, named);
        }

        return null;
    }

    private static InspectionValue? Measured(ResultRow row, InspectionValue value, DeviceMapping how, int? named)
    {
        var (x, y) = (row.Micrometres("dx"), row.Micrometres("dy"));
        var sign = how.SignTurned ? -1 : 1;
        var stated = Deviation(row, value.Feature) * sign;
        if (value.Feature is PositionFeature or CoaxialityFeature && stated is { } position)
        {
            stated = Math.Abs(position) * (how.PositionIsRadial ? 2 : 1);
        }

        var read = value with
        {
            Hole = row.Hole(named),
            DxMicrometres = x * sign,
            DyMicrometres = y * sign,
            MeasuredAt = row.Time(),
            UMicrometres = row.Micrometres("u") ?? how.UMicrometres,
            Device = row.Text("device") is { Length: > 0 } device ? device : how.Device,
            Compensation = row.Compensation(),
            PartCelsius = row.Celsius("partC"),
            DeviceCelsius = row.Celsius("deviceC"),
            DeviceAlphaMicrometresPerMetreKelvin = how.ScaleAlpha,
        };
        if (read.Hole is { } hole && read.Feature is PositionFeature pattern && hole > pattern.Points.Count)
        {
            row.Refuse($"hole {hole} of {pattern.Id}: the plant file has {pattern.Points.Count} holes");
        }

        var deviation = stated ?? (x is not null && y is not null ? 2 * double.Hypot(x.Value, y.Value) : null);
        return deviation is { } known && row.Good ? read with { DeviationMicrometres = known } : null;
    }

    private static double? Deviation(ResultRow row, Feature feature)
    {
        if (row.Micrometres("deviation") is { } stated)
        {
            return stated;
        }

        var nominal = row.Micrometres("nominal") ?? Nominal(feature) * 1000;
        return row.Micrometres("actual") - (feature is PositionFeature or CoaxialityFeature ? 0 : nominal);
    }

    /// <summary>The nominal of the plant file in mm, or null for a feature that has none.</summary>
    internal static double? Nominal(Feature feature) => feature switch
    {
        SizeFeature size => size.NominalMillimetres,
        DepthFeature depth => depth.NominalMillimetres,
        DistanceFeature distance => distance.NominalMillimetres,
        _ => null,
    };
}
