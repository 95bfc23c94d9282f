using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Undoes the lag of a sensor whose reading drives the model, such as that of air or coolant.</summary>
/// <remarks>
/// A first-order sensor that read m₀ and reads m₁ after Δt has seen, if it was constant in between, T = (m₁ − q·m₀)/(1 − q), q = exp(−Δt/τ):
/// the exact inverse of <see cref="FirstOrderLag"/> for a step. It lifts noise, but what drives a slow body is the sum over the steps, and
/// there the corrections cancel but for the last: the body sees m + τ·(change).
/// </remarks>
public static class InputLag
{
    /// <summary>What a sensor saw on average between two readings, its response weighting the end most.</summary>
    /// <param name="before">The reading at the begin.</param>
    /// <param name="now">The reading at the end.</param>
    /// <param name="elapsed">Time between them; zero or less gives the reading as it is.</param>
    /// <param name="timeConstant">Time constant of the sensor, zero or more.</param>
    /// <returns>The temperature.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the time constant is negative.</exception>
    public static Celsius Undo(Celsius before, Celsius now, TimeSpan elapsed, TimeSpan timeConstant)
    {
        FormulaInput.Finite(before.Value, "°C", nameof(before));
        FormulaInput.Finite(now.Value, "°C", nameof(now));
        FormulaInput.NotNegative(timeConstant.TotalSeconds, "s", nameof(timeConstant));
        if (elapsed <= TimeSpan.Zero || timeConstant == TimeSpan.Zero)
        {
            return now;
        }

        var kept = Math.Exp(-(elapsed / timeConstant));
        return new(now.Value + (kept / (1 - kept) * (now.Value - before.Value)));
    }
}
