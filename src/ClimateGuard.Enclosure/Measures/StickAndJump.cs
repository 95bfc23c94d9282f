namespace ClimateGuard.Enclosure;

/// <summary>Moves of a command that the supply air did not answer, and answers without a move.</summary>
internal static class StickAndJump
{
    private const int Window = 30;
    private const int Delay = 9;
    private const double LeastMove = 0.05;
    private const int JumpMinutes = 12;

    /// <summary>Share of moves without response, minutes with a move, and how many jumps.</summary>
    /// <param name="command">Command, 0 to 1.</param>
    /// <param name="supply">Supply air, °C.</param>
    /// <param name="kelvinsPerCommand">How far the supply follows the whole command, in K.</param>
    public static (double Share, int Moved, int Jumps) Of(double[] command, double[] supply, double kelvinsPerCommand)
    {
        int moved = 0, stuck = 0, jumps = 0, lastJump = -60;
        for (var minute = Window + Delay; minute < command.Length; minute++)
        {
            var move = RowMath.Mean(command, minute - Delay - 2, 3) - RowMath.Mean(command, minute - Delay - Window, 3);
            var answer = RowMath.Mean(supply, minute - Window, 3) - RowMath.Mean(supply, minute - 2, 3);
            if (double.IsNaN(move) || double.IsNaN(answer)) continue;
            if (Math.Abs(move) >= LeastMove)
            {
                moved++;
                if (answer * Math.Sign(move) < 0.25 * Math.Abs(move) * kelvinsPerCommand) stuck++;
            }

            var jump = Math.Abs(RowMath.Mean(supply, minute - JumpMinutes, 3) - RowMath.Mean(supply, minute - 2, 3));
            var near = Robust.Range(command.AsSpan(minute - JumpMinutes - Delay, JumpMinutes + Delay - 3));
            if (jump < 0.4 || jump < 2.5 * near * kelvinsPerCommand || minute - lastJump < 20) continue;
            jumps++;
            lastJump = minute;
        }

        return (moved == 0 ? 0 : stuck / (double)moved, moved, jumps);
    }
}
