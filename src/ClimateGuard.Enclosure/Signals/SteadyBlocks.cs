namespace ClimateGuard.Enclosure;

/// <summary>A stretch of minutes in which the commands stood still long enough for the temperatures to follow.</summary>
/// <param name="From">Its first minute.</param>
/// <param name="Minutes">Its length.</param>
public readonly record struct SteadyBlock(int From, int Minutes)
{
    /// <summary>The median of a signal over the block; NaN when it is not known there.</summary>
    public double Median(double[]? row) =>
        row is null ? double.NaN : Robust.Median(new ArraySegment<double>(row, From, Minutes));
}

/// <summary>Cuts a window into steady blocks.</summary>
internal static class SteadyBlocks
{
    private const int Longest = 60;
    private const int Shortest = 15;

    /// <summary>Blocks of 15 to 60 minutes in which a state holds, each after the state has held for the settling time.</summary>
    /// <param name="minutes">Length of the window.</param>
    /// <param name="settle">Minutes that the state must have held before the block begins.</param>
    /// <param name="holds">Whether the state holds in a minute and has not changed since the minute before.</param>
    public static IReadOnlyList<SteadyBlock> Of(int minutes, int settle, Func<int, bool> holds)
    {
        var blocks = new List<SteadyBlock>();
        var held = 0;
        var from = -1;
        for (var minute = 0; minute <= minutes; minute++)
        {
            held = minute < minutes && holds(minute) ? held + 1 : 0;
            if (held > settle && from < 0) from = minute;
            var length = from < 0 ? 0 : minute - from;
            if (from < 0 || (held > 0 && length < Longest)) continue;
            if (length >= Shortest) blocks.Add(new SteadyBlock(from, length));
            from = held > 0 ? minute : -1;
        }

        return blocks;
    }

    /// <summary>Whether a signal moved by at most so much since the minute before; one that is absent stands still.</summary>
    public static bool Still(double[]? row, int minute, double most) =>
        row is null || minute == 0 || Math.Abs(row[minute] - row[minute - 1]) <= most;
}
