namespace ClimateGuard.Enclosure;

/// <summary>Whether an air handler stopped and started again about some time.</summary>
internal static class Restart
{
    /// <summary>Whether its fan, or what it does to the air, stopped within 20 min of a silence.</summary>
    public static bool Near(HandlerSignals handler, int from, int minutes)
    {
        int first = Math.Max(0, from - 5), last = Math.Min(handler.Frame.Minutes, from + minutes + 20);
        if (handler.FanKnown && Enumerable.Range(first, last - first).Any(m => !handler.FanOn[m])) return true;
        if (handler is not { Supply: { } supply, Return: { } back }) return false;
        double before = RowMath.Mean(back, from - 30, 20) - RowMath.Mean(supply, from - 30, 20);
        double least = double.PositiveInfinity;
        for (var m = from; m < last; m++) least = Math.Min(least, double.IsNaN(supply[m] + back[m]) ? least : back[m] - supply[m]);
        return before > 0.5 && least < 0.4 * before;
    }
}
