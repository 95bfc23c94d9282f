using System.Globalization;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>Reads a whole file of readings into minutes of signals; a few bad rows are passed over and told.</summary>
public static class ReadingsFrame
{
    private const int NamedProblems = 3;

    /// <summary>The frame, and what was wrong with rows.</summary>
    /// <param name="path">The file.</param>
    /// <param name="cell">The cell that knows the sensors.</param>
    /// <exception cref="UnreadableFileException">It cannot be read, or more than a tenth of its rows are no readings.</exception>
    /// <exception cref="InvalidOperationException">There are no readings, or of too many days.</exception>
    public static (SignalFrame Frame, IReadOnlyList<string> Notes) Read(string path, Cell cell)
    {
        using var file = ReadingsFileReader.Open(path, cell);
        var builder = new FrameBuilder(cell);
        var notes = new List<string>();
        long bad = 0, good = 0;
        while (file.Read(out var reading, out var problem))
        {
            if (problem is null)
            {
                if (reading.Trust is not Trust.Quarantined) builder.Add(reading.Raw with { Value = Corrected(reading, file.Judged, cell) });
                good++;
            }
            else if (++bad <= NamedProblems)
            {
                notes.Add($"passed over: {problem}");
            }
        }

        if (bad > (good + bad) / 10)
            throw new UnreadableFileException($"{notes[0]["passed over: ".Length..]} ({bad} of {good + bad} rows are no readings; nothing was judged.)");
        if (bad > NamedProblems) notes.Add(string.Create(CultureInfo.InvariantCulture, $"{bad} rows in all were passed over."));
        if (file.WithoutValue > 0) notes.Add(string.Create(CultureInfo.InvariantCulture, $"{file.WithoutValue} rows had no value."));
        return (builder.Build(), notes);
    }

    // A file that a store wrote is corrected already.
    private static double Corrected(TrustedReading reading, bool judged, Cell cell) => judged
        ? reading.Value
        : reading.Value - (cell.Sensors[reading.Raw.Sensor].Calibrations.LastOrDefault(c => c.From <= reading.Raw.Time)?.Offset ?? 0);
}
