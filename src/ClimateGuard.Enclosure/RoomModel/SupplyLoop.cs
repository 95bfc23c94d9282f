namespace ClimateGuard.Enclosure;

/// <summary>The control of a zone as it shows in its supply air: proportional and integral on the air, with limits and a lag.</summary>
/// <remarks>asked = asked before + K·Δe + K/Ti·e·Δt, clipped; supply follows with the share <see cref="Follow"/> in a step. Immutable.</remarks>
/// <param name="Gain">K, kelvins of supply per kelvin of error.</param>
/// <param name="IntegralMinutes">Ti.</param>
/// <param name="Follow">Which share of the way to what is asked the supply goes within five minutes, 0 to 1.</param>
/// <param name="LowCelsius">The coldest supply.</param>
/// <param name="HighCelsius">The warmest supply.</param>
public sealed record SupplyLoop(double Gain, double IntegralMinutes, double Follow, double LowCelsius, double HighCelsius)
{
    private const int LeastSteps = 144;
    private const int LeastAtLimit = 6;
    // Farther off, or while the set point jumps, a limit may hold it unseen.
    private const double FarKelvins = 1.0;
    private const double BeyondSeen = 2.0;
    private static readonly double[] Follows = [0.3, 0.45, 0.6, 0.8, 1.0];

    /// <summary>One step: what is asked for, and the supply, after an error has changed.</summary>
    /// <param name="asked">Asked for before, °C.</param>
    /// <param name="supply">Supply before, °C.</param>
    /// <param name="errorBefore">Set point minus air a step ago, K.</param>
    /// <param name="error">Set point minus air, K.</param>
    /// <param name="minutes">Length of the step.</param>
    public (double Asked, double Supply) Step(double asked, double supply, double errorBefore, double error, double minutes = ZoneCourse.StepMinutes)
    {
        var free = asked + (Gain * (error - errorBefore)) + (Gain / IntegralMinutes * minutes * error);
        var next = Math.Max(LowCelsius, Math.Min(HighCelsius, free));
        var share = minutes == ZoneCourse.StepMinutes ? Follow : 1 - Math.Pow(1 - Follow, minutes / ZoneCourse.StepMinutes);
        return (next, supply + (share * (next - supply)));
    }

    /// <summary>Reads the loop from the steps in which it was free to move; null when it cannot be seen.</summary>
    /// <param name="course">What the zone did.</param>
    /// <param name="latest">How many of its latest steps.</param>
    public static SupplyLoop? Of(ZoneCourse course, int latest)
    {
        ArgumentNullException.ThrowIfNull(course);
        var from = Math.Max(0, course.Count - latest);
        ReadOnlySpan<double> air = course.Air[from..], asked = course.Setpoint[from..], supply = course.Supply[from..], flow = course.Flow[from..];
        SupplyLoop? best = null;
        var least = double.PositiveInfinity;
        foreach (var follow in Follows)
        {
            if (Fitted(air, asked, supply, flow, course.Regimes[from..], follow) is not var (gain, perStep, squares) || squares >= least) continue;
            if (!(gain > 0.05) || !(perStep > 1e-4)) continue;
            least = squares;
            best = new SupplyLoop(gain, gain * ZoneCourse.StepMinutes / perStep, follow, 0, 0);
        }

        return best is null ? null : Limited(best, supply, flow, course.Regimes[from..], air);
    }

    // Two unknowns by least squares: the change of what is asked against the change of the error and the error.
    private static (double Gain, double PerStep, double Squares)? Fitted(
        ReadOnlySpan<double> air, ReadOnlySpan<double> setpoint, ReadOnlySpan<double> supply, ReadOnlySpan<double> flow, ReadOnlySpan<Regime> regimes, double follow)
    {
        double xx = 0, xy = 0, yy = 0, xz = 0, yz = 0, zz = 0;
        var count = 0;
        for (var i = 1; i + 2 < air.Length; i++)
        {
            if (regimes[i] is Regime.AtCapacity or Regime.Off or Regime.Unknown || !(flow[i] > 0.05 || double.IsNaN(flow[i]))) continue;
            double error = setpoint[i + 1] - air[i + 1], change = error - (setpoint[i] - air[i]);
            var now = supply[i + 1] + ((supply[i + 2] - supply[i + 1]) / follow);
            var move = follow * (now - (supply[i] + ((supply[i + 1] - supply[i]) / follow)));
            if (double.IsNaN(error + change + move) || Math.Abs(error) > FarKelvins || Math.Abs(change) > FarKelvins / 2) continue;
            double x = follow * change, y = follow * error;
            (xx, xy, yy, xz, yz, zz) = (xx + (x * x), xy + (x * y), yy + (y * y), xz + (x * move), yz + (y * move), zz + (move * move));
            count++;
        }

        var determinant = (xx * yy) - (xy * xy);
        if (count < LeastSteps || determinant <= 1e-9 * xx * yy) return null;
        double gain = ((xz * yy) - (yz * xy)) / determinant, perStep = ((yz * xx) - (xz * xy)) / determinant;
        return (gain, perStep, (zz - (gain * xz) - (perStep * yz)) / count);
    }

    /// <summary>The same loop while a limit holds it: then the supply goes no farther than it stands.</summary>
    internal SupplyLoop HeldAt(double supplyCelsius, double airCelsius) => supplyCelsius < airCelsius
        ? this with { LowCelsius = Math.Max(LowCelsius, supplyCelsius), HighCelsius = Math.Max(HighCelsius, supplyCelsius) }
        : this with { LowCelsius = Math.Min(LowCelsius, supplyCelsius), HighCelsius = Math.Min(HighCelsius, supplyCelsius) };

    // Where a limit was reached it is the farthest the supply went; one never reached lies beyond what was seen.
    private static SupplyLoop Limited(
        SupplyLoop loop, ReadOnlySpan<double> supply, ReadOnlySpan<double> flow, ReadOnlySpan<Regime> regimes, ReadOnlySpan<double> air)
    {
        var all = new List<double>();
        int cold = 0, warm = 0;
        for (var i = 0; i < supply.Length; i++)
        {
            if (double.IsNaN(supply[i]) || flow[i] <= 0.05) continue;
            all.Add(supply[i]);
            if (regimes[i] != Regime.AtCapacity) continue;
            if (supply[i] < air[i]) cold++;
            else warm++;
        }

        var low = Robust.Quantile(all, 0.002) - (cold >= LeastAtLimit ? 0 : BeyondSeen);
        var high = Robust.Quantile(all, 0.998) + (warm >= LeastAtLimit ? 0 : BeyondSeen);
        return loop with { LowCelsius = low, HighCelsius = Math.Max(high, low + 1) };
    }
}
