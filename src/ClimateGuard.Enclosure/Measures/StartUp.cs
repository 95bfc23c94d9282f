namespace ClimateGuard.Enclosure;

/// <summary>Overshoot after the room comes back from afar.</summary>
internal static class StartUp
{
    private const double Far = 0.5;
    private const double Settled = 0.2;
    private const int FarMinutes = 30;
    private const int Watched = 300;

    /// <summary>The largest overshoot past the set point, how long until settled, and the minute it crossed; -1 when there was no start.</summary>
    public static (double Overshoot, int Settle, int At) Largest(double[] error)
    {
        double best = 0;
        int settle = 0, at = -1, held = 0, side = 0;
        for (var minute = 0; minute < error.Length; minute++)
        {
            var now = error[minute] > Far ? 1 : error[minute] < -Far ? -1 : 0;
            if (now != 0 && now == side) held++;
            else if (now != 0) (side, held) = (now, 1);
            if (held < FarMinutes || side == 0 || !(error[minute] * side < 0)) continue;
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
}
