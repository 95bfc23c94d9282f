namespace ClimateGuard.Enclosure;

/// <summary>What a command looks like.</summary>
internal static class Commands
{
    private const int Stretch = 360;

    /// <summary>Whether for six hours it knows only on and off: hardly ever between, and both are seen.</summary>
    public static bool OnOff(double[] command)
    {
        for (var from = 0; from + Stretch <= command.Length; from += Stretch / 3)
        {
            if (OnOff(command.AsSpan(from, Stretch))) return true;
        }

        return false;
    }

    private static bool OnOff(ReadOnlySpan<double> command)
    {
        int low = 0, high = 0, between = 0;
        foreach (var value in command)
        {
            if (double.IsNaN(value)) continue;
            if (value < 0.05) low++;
            else if (value > 0.95) high++;
            else between++;
        }

        var all = low + high + between;
        return all > 0 && between < 0.2 * all && low > 0.1 * all && high > 0.1 * all;
    }

    /// <summary>The longest time for which the cooling command stood between its limits without moving while the fan ran, in minutes.</summary>
    public static double LongestStill(HandlerSignals signals) => signals.Cooling is { } command ? Still(signals, command).Minutes : double.NaN;

    /// <summary>That time, and from which minute on; -1 when there is none.</summary>
    public static (int From, int Minutes) Still(HandlerSignals signals, double[] command) => RowMath.Longest(
        command.Length, m => m > 0 && signals.FanOn[m] && command[m] is > 0.03 and < 0.97 && Math.Abs(command[m] - command[m - 1]) < 0.0015);

    /// <summary>The most starts per hour in any stretch, and the median minutes of a run.</summary>
    public static (double PerHour, double RunMinutes) Starts(double[] row, int stretch)
    {
        var starts = new List<int>();
        var runs = new List<double>();
        var from = -1;
        for (var minute = 1; minute < row.Length; minute++)
        {
            if (row[minute] >= 0.5 && row[minute - 1] < 0.5)
            {
                starts.Add(minute);
                from = minute;
            }
            else if (row[minute] < 0.5 && row[minute - 1] >= 0.5 && from >= 0)
            {
                runs.Add(minute - from);
            }
        }

        var most = starts.Count == 0 ? 0 : starts.Max(first => starts.Count(s => s >= first && s < first + stretch));
        return (most * 60.0 / stretch, runs.Count == 0 ? 0 : Robust.Median(runs));
    }
}
