namespace ClimateGuard.Enclosure;

/// <summary>What the sensors said, minute by minute: one row of values per sensor, NaN where nothing is known.</summary>
/// <remarks>Immutable by agreement: nobody writes into a row after <see cref="FrameBuilder.Build"/>. Safe across threads.</remarks>
public sealed class SignalFrame
{
    private readonly double[]?[] rows;

    internal SignalFrame(DateTimeOffset start, int minutes, double[]?[] rows, IReadOnlyList<string> notes, int[] silent, int regular)
    {
        Silent = silent;
        Regular = regular;
        Start = start;
        Minutes = minutes;
        this.rows = rows;
        Notes = notes;
    }

    /// <summary>The first minute, UTC.</summary>
    public DateTimeOffset Start { get; }

    /// <summary>How many minutes.</summary>
    public int Minutes { get; }

    /// <summary>How many of the sensors that report at least every minute said nothing, by minute.</summary>
    public IReadOnlyList<int> Silent { get; }

    /// <summary>How many sensors report at least every minute.</summary>
    public int Regular { get; }

    /// <summary>What was wrong with the readings and what was done about it, in words for a person.</summary>
    public IReadOnlyList<string> Notes { get; }

    /// <summary>The values of a sensor by minute, in its canonical unit, NaN in gaps; null when it said nothing in this frame.</summary>
    /// <param name="sensor">Index in <see cref="Plant.Cell.Sensors"/>; -1 gives null.</param>
    public double[]? Row(int sensor) => sensor >= 0 && sensor < rows.Length ? rows[sensor] : null;

    /// <summary>The event time of a minute.</summary>
    /// <param name="minute">Minutes after <see cref="Start"/>.</param>
    public DateTimeOffset TimeOf(int minute) => Start.AddMinutes(minute);

    /// <summary>A part of the frame; rows without any value in it become null.</summary>
    /// <param name="from">First minute; clipped to the frame.</param>
    /// <param name="minutes">Length; clipped to the frame.</param>
    public SignalFrame Slice(int from, int minutes)
    {
        var first = Math.Clamp(from, 0, Minutes);
        var length = Math.Clamp(minutes + Math.Min(0, from), 0, Minutes - first);
        var cut = rows.Select(row => row is null ? null : Known(row.AsSpan(first, length).ToArray())).ToArray();
        return new SignalFrame(Start.AddMinutes(first), length, cut, [], [.. Silent.Skip(first).Take(length)], Regular);
    }

    /// <summary>How many minutes carry a value of any sensor.</summary>
    public int KnownMinutes
    {
        get
        {
            var known = 0;
            for (var minute = 0; minute < Minutes; minute++)
            {
                if (Array.Exists(rows, row => row is not null && !double.IsNaN(row[minute]))) known++;
            }

            return known;
        }
    }

    private static double[]? Known(double[] row) => Array.TrueForAll(row, double.IsNaN) ? null : row;
}
