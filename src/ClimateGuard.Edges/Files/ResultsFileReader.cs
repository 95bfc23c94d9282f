using System.Globalization;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using CsvHelper;
using CsvHelper.Configuration;

namespace ClimateGuard.Edges.Files;

/// <summary>
/// Reads inspection results as CSV: <c>serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm,…</c>. The whole file or nothing.
/// A blank deviation is not zero: with <c>dxUm</c> and <c>dyUm</c> a position is 2·|d|, else the row says nothing and is passed over.
/// </summary>
public static class ResultsFileReader
{
    /// <summary>The most rows that are read.</summary>
    public const int MostRows = 100_000;

    private const int MostProblems = 50;

    private static readonly string[] Needed = ["serial", "part", "operation", "machine", "feature", "deviationUm"];

    /// <summary>Reads the results of a cell.</summary>
    /// <param name="text">The text of the file.</param>
    /// <param name="cell">The cell that knows machines, parts and features.</param>
    /// <returns>The values, or every problem with its line; never both.</returns>
    public static (IReadOnlyList<InspectionValue> Values, IReadOnlyList<string> Problems) Parse(string text, Cell cell)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(cell);
        var values = new List<InspectionValue>();
        var problems = new List<string>();
        var form = new CsvConfiguration(CultureInfo.InvariantCulture) { BadDataFound = null, MissingFieldFound = null, TrimOptions = TrimOptions.Trim };
        using var rows = new CsvReader(new StringReader(text), form);
        if (!rows.Read() || !rows.ReadHeader())
        {
            return ([], ["line 1: the file is empty; a header line is needed"]);
        }

        string[] absent = [.. Needed.Except(rows.HeaderRecord!)];
        if (absent.Length > 0)
        {
            return ([], [$"line 1: missing {string.Join(", ", absent)}; found {string.Join(", ", rows.HeaderRecord!.Take(20))}"]);
        }

        for (var count = 1; rows.Read() && problems.Count < MostProblems; count++)
        {
            if (count > MostRows)
            {
                problems.Add($"line {rows.Parser.Row}: more than {MostRows} rows; split the file");
                break;
            }

            ReadRow(rows, cell, values, problems);
        }

        return problems.Count > 0 ? ([], problems) : (values, []);
    }

    private static void ReadRow(CsvReader row, Cell cell, List<InspectionValue> values, List<string> problems)
    {
        var line = row.Parser.Row;
        if (row.Parser.Count != row.HeaderRecord!.Length)
        {
            // An unquoted decimal comma makes two fields of one number, and each following value lands in the wrong column.
            problems.Add($"line {line}: {row.Parser.Count} fields under {row.HeaderRecord.Length} column names; is there a decimal comma? a decimal point is needed");
            return;
        }

        var (serial, number, id) = (Text(row, "serial"), Text(row, "part"), Text(row, "feature"));
        var machine = Text(row, "machine");
        var part = cell.FindPart(number);
        var feature = part?.Features.FirstOrDefault(known => known.Id == id);
        if (serial.Length is 0 or > 200)
        {
            problems.Add($"line {line}: a serial of 1 to 200 characters is needed");
        }
        else if (part is null)
        {
            problems.Add($"line {line}: part {number} is not in the plant file; {NearestNames.Hint(number, [.. cell.Parts.Select(p => p.Number)])}");
        }
        else if (feature is null)
        {
            problems.Add($"line {line}: part {number} has no feature {id}; {NearestNames.Hint(id, [.. part.Features.Select(f => f.Id)])}");
        }
        else if (cell.FindMachine(machine) is null)
        {
            problems.Add($"line {line}: machine {machine} is not in the plant file; {NearestNames.Hint(machine, [.. cell.Machines.Select(m => m.Id)])}");
        }
        else
        {
            Add(row, new InspectionValue(serial, Text(row, "operation"), machine, feature, double.NaN) { Part = part.Number }, values, problems);
        }
    }

    private static void Add(CsvReader row, InspectionValue value, List<InspectionValue> values, List<string> problems)
    {
        var line = row.Parser.Row;
        var (dx, dy) = (Number(row, "dxUm", line, problems), Number(row, "dyUm", line, problems));
        if ((Number(row, "deviationUm", line, problems) ?? (dx is { } x && dy is { } y ? 2 * Math.Sqrt((x * x) + (y * y)) : null)) is { } deviation)
        {
            values.Add(value with { DeviationMicrometres = deviation, Hole = Hole(row, line, problems), DxMicrometres = dx, DyMicrometres = dy });
        }
    }

    private static int? Hole(CsvReader row, int line, List<string> problems)
    {
        var text = Text(row, "hole");
        if (text.Length == 0)
        {
            return null;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var hole) && hole is >= 1 and <= 100_000)
        {
            return hole;
        }

        problems.Add($"line {line}: hole is \"{text[..Math.Min(text.Length, 40)]}\"; the number of the hole from 1, or blank, is allowed");
        return null;
    }

    private static double? Number(CsvReader row, string name, int line, List<string> problems)
    {
        var text = Text(row, name);
        if (text.Length == 0)
        {
            return null;
        }

        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number))
        {
            return number;
        }

        problems.Add($"line {line}: {name} is \"{text[..Math.Min(text.Length, 40)]}\"; a number in µm with a decimal point, or blank for not measured, is allowed");
        return null;
    }

    private static string Text(CsvReader row, string name) => row.TryGetField<string>(name, out var text) ? text ?? "" : "";
}
