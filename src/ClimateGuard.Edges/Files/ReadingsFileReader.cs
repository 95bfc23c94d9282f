using System.Security.Cryptography;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>
/// Reads <c>readings.csv</c>: <c>time,sensor,value,unit</c>, or with <c>raw,trust,reason</c> as <c>export</c> writes it; rows in any order,
/// plain or gzip, of any length.
/// </summary>
/// <remarks>
/// UTF-8 with or without byte order mark, line feed or CR LF, columns in any order, further columns passed over, fields quoted or not (a
/// quoted field ends on its line). Semicolons and decimal commas are refused: whether 20,137 is one number or two cannot be told. A row
/// without a value says that the sensor had none: it is counted and passed over. Values come in the canonical unit of the sensor.
/// No allocation for a row. Not safe across threads.
/// </remarks>
public sealed class ReadingsFileReader : IDisposable
{
    private readonly string path;
    private readonly TextLines lines;
    private readonly ReadingColumns columns;
    private readonly ReadingRows rows;

    private ReadingsFileReader(string path, TextLines lines, ReadingColumns columns, Cell cell)
    {
        this.path = path;
        this.lines = lines;
        this.columns = columns;
        rows = new ReadingRows(cell, columns);
    }

    /// <summary>Whether the rows carry the judgement of a store; else each is taken as accepted, for <see cref="SensorTrust"/> to judge.</summary>
    public bool Judged => columns.Judged;

    /// <summary>Number of the line read last, from 1.</summary>
    public long Line => lines.Number;

    /// <summary>Where the next line begins, in bytes of the unpacked text.</summary>
    internal long Offset => lines.Offset;

    /// <summary>How much of the file was read, in [0, 1].</summary>
    public double Share => lines.Share;

    /// <summary>How many rows had no value.</summary>
    public long WithoutValue { get; private set; }

    /// <summary>Opens a file and reads its first line.</summary>
    /// <param name="path">The file.</param>
    /// <param name="cell">The cell that knows the sensors.</param>
    /// <exception cref="UnreadableFileException">It cannot be read, or its columns are not those of readings.</exception>
    public static ReadingsFileReader Open(string path, Cell cell) => Open(path, cell, null);

    /// <inheritdoc cref="Open(string, Cell)"/>
    internal static ReadingsFileReader Open(string path, Cell cell, IncrementalHash? digest)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(cell);
        var lines = TextLines.Open(path, digest);
        try
        {
            return lines.Next(out var first)
                ? new ReadingsFileReader(path, lines, ReadingColumns.Of($"{path}:1", first), cell)
                : throw new UnreadableFileException($"{path}: the file is empty; a first line time,sensor,value,unit is needed.");
        }
        catch
        {
            lines.Dispose();
            throw;
        }
    }

    /// <summary>Reads the next row.</summary>
    /// <param name="reading">The row.</param>
    /// <returns>False at the end of the file.</returns>
    /// <exception cref="UnreadableFileException">The row is not a reading; the message names file, line and what is allowed.</exception>
    public bool Read(out TrustedReading reading)
    {
        var there = Read(out reading, out var problem);
        return problem is null ? there : throw new UnreadableFileException(problem);
    }

    /// <summary>Reads the next row, sound or not.</summary>
    /// <param name="reading">The row, when there is no problem.</param>
    /// <param name="problem">File, line, what was found and what is allowed, or null.</param>
    /// <returns>False at the end of the file.</returns>
    /// <exception cref="UnreadableFileException">The file cannot be read on.</exception>
    public bool Read(out TrustedReading reading, out string? problem)
    {
        while (lines.Next(out var line))
        {
            if (line.IsEmpty)
            {
                continue;
            }

            switch (rows.Read(line, out reading, out problem))
            {
                case ReadingRows.Outcome.WithoutValue:
                    WithoutValue++;
                    continue;
                case ReadingRows.Outcome.Bad:
                    problem = $"{path}:{lines.Number}: {problem}";
                    return true;
                default:
                    return true;
            }
        }

        (reading, problem) = (default, null);
        return false;
    }

    /// <summary>Closes the file.</summary>
    public void Dispose() => lines.Dispose();
}
