namespace ClimateGuard.Enclosure;

/// <summary>Overshoot after the room comes back from afar.</summary>
internal static class StartUp
{
    private const double Far = 0.5;
    private const double Settled = 0.2;
    private const int FarMinutes = 30;
    private const int Watched = 300;

    /// <summary>The largest overshoot past the set point, how long until settled, and the minute it crossed; -1 when there was no start.</summary>
    public static (double Overshoot, int Settle, int At) Largest(double[] error, HandlerSignals signals)
    {
        double best = 0;
        int settle = 0, at = -1, held = 0, side = 0;
        for (var minute = 0; minute < error.Length; minute++)
        {
            var now = error[minute] > Far ? 1 : error[minute] < -Far ? -1 : 0;
            if (now != 0 && now == side) held++;
            else if (now != 0) (side, held) = (now, 1);
            if (held < FarMinutes || side == 0 || !(error[minute] * side < 0)) continue;
            if (!Started(signals, minute))
            {
                (held, side) = (0, 0);
                continue;
            }

            var until = Math.Min(error.Length, minute + Watched);
            double over = 0;
            var last = minute;
            for (var m = minute; m < until; m++)
            {
                over = Math.Max(over, -side * error[m]);
                if (Math.Abs(error[m]) > Settled) last = m;
            }

            if (at < 0 || over > best) (best, settle, at) = (over, last - minute, minute);
            (held, side) = (0, 0);
        }

        return (best, settle, at);
    }

    /// <summary>The largest overshoot of a day, from the return air, which is there on every day; NaN without a start.</summary>
    public static double Overshoot(HandlerSignals signals, double setPoint)
    {
        if (signals.Return is not { } back) return double.NaN;
        var (overshoot, _, at) = Largest([.. back.Select(t => t - setPoint)], signals);
        return at < 0 ? double.NaN : overshoot;
    }

    // A start is a fan that stood for 20 min within the hours before.
    private static bool Started(HandlerSignals signals, int minute) =>
        signals.FanKnown && Enumerable.Range(Math.Max(0, minute - Watched), Math.Min(minute, Watched)).Count(m => !signals.FanOn[m]) >= 20;
}
