namespace ClimateGuard.Enclosure;

/// <summary>Moves of a command that the supply air did not answer, and answers without a move.</summary>
/// <remarks>
/// Actuator, coil and duct answer late, each plant in its own time. A free valve has one delay at which nearly all moves are answered; a stem that
/// waits and then jumps has none. So the least share over the delays counts. Short moves, because a loop that hunts turns back within minutes.
/// </remarks>
internal static class StickAndJump
{
    private const int Window = 10;
    private const int LongestDelay = 12;
    private const double LeastMove = 0.05;
    private const double AnsweredShare = 0.25;
    private const int LeastMoved = 120;
    private const int Settle = 15;
    private const int JumpMinutes = 12;
    private const int JumpDelay = 9;

    /// <summary>How a window answered.</summary>
    /// <param name="Reach">How far the supply air usually follows the whole command, in K; NaN when no other day shows it.</param>
    /// <param name="Share">Share of moves without response, from 0 to 1; NaN without a reach, or when the command moved for less than two hours.</param>
    /// <param name="Usual">The share on other days.</param>
    public readonly record struct Response(double Reach, double Share, Usual Usual)
    {
        /// <summary>Whether other days show how far the supply air follows, by more than a kelvin.</summary>
        public bool IsKnown => Reach > 1;
    }

    /// <summary>How the supply air of a window answered its command.</summary>
    public static Response Of(HandlerCase known)
    {
        var reach = ReachOf(known);
        return !(reach > 1) ? new(reach, double.NaN, new Usual(double.NaN, double.NaN, 0))
            : new(reach, known.Number("stick", s => ShareOf(s, reach)), known.Baseline.Usually("stick", s => ShareOf(s, reach)));
    }

    /// <summary>How often the supply of a window jumped without a move that would explain it.</summary>
    public static int Jumps(HandlerCase known, double reach) => Jumps(known.Signals.Cooling!, Answer(known.Signals), reach);

    private static double ReachOf(HandlerCase known) =>
        known.Baseline.Curve.WholeRange * Robust.Median(Enumerable.Range(0, known.Signals.Frame.Minutes / 10).Select(i => CoilCurve.Lever(known.Signals, 10 * i)));

    private static double ShareOf(HandlerSignals signals, double reach)
    {
        if (signals is not { Cooling: { } cooling, Supply: not null }) return double.NaN;
        var (command, supply) = (Smooth(WhileBlowing(signals, cooling)), Smooth(Answer(signals)));
        var least = double.NaN;
        for (var delay = 0; delay <= LongestDelay; delay++)
        {
            var (moved, stuck) = Answered(command, supply, reach, delay);
            if (moved >= LeastMoved && !(stuck / (double)moved >= least)) least = stuck / (double)moved;
        }

        return least;
    }

    private static (int Moved, int Stuck) Answered(double[] command, double[] supply, double reach, int delay)
    {
        int moved = 0, stuck = 0;
        for (var minute = Window + delay; minute < command.Length; minute++)
        {
            var move = command[minute - delay] - command[minute - delay - Window];
            var answer = supply[minute - Window] - supply[minute];
            if (!(Math.Abs(move) >= LeastMove) || double.IsNaN(answer)) continue;
            moved++;
            if (answer * Math.Sign(move) < AnsweredShare * Math.Abs(move) * reach) stuck++;
        }

        return (moved, stuck);
    }

    private static int Jumps(double[] command, double[] supply, double reach)
    {
        int jumps = 0, last = -60;
        for (var minute = JumpMinutes + JumpDelay; minute < command.Length; minute++)
        {
            var jump = Math.Abs(RowMath.Mean(supply, minute - JumpMinutes, 3) - RowMath.Mean(supply, minute - 2, 3));
            var near = Robust.Range(command.AsSpan(minute - JumpMinutes - JumpDelay, JumpMinutes + JumpDelay - 3));
            if (!(jump >= 0.4) || !(jump >= 2.5 * near * reach) || minute - last < 20) continue;
            jumps++;
            last = minute;
        }

        return jumps;
    }

    // Without air nothing answers, and after a start the duct comes first.
    private static double[] WhileBlowing(HandlerSignals signals, double[] command)
    {
        var blowing = new double[command.Length];
        var still = 0;
        for (var minute = 0; minute < command.Length; minute++)
        {
            still = signals.FanOn[minute] ? Math.Max(0, still - 1) : Settle;
            blowing[minute] = still > 0 ? double.NaN : command[minute];
        }

        return blowing;
    }

    // Where outdoor air is mixed in, a coil pulls less the colder the air that enters; what is left then goes with the command alone.
    private static double[] Answer(HandlerSignals signals)
    {
        if (!signals.Handler.OutdoorAir || signals.Entering is not { } entering) return signals.Supply!;
        double[] levers = [.. Enumerable.Range(0, entering.Length).Select(minute => CoilCurve.Lever(signals, minute))];
        var usual = Robust.Median(levers);
        return [.. signals.Supply!.Select((supply, minute) => (supply - entering[minute]) * usual / levers[minute])];
    }

    private static double[] Smooth(double[] row) => [.. Enumerable.Range(0, row.Length).Select(minute => RowMath.Mean(row, minute - 1, 3))];
}
