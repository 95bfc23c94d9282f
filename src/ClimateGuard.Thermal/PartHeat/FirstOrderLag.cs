namespace ClimateGuard.Thermal;

/// <summary>A first-order node driven by a temperature that swings.</summary>
public static class FirstOrderLag
{
    /// <summary>Gain 1/√(1 + (ωτ)²) and lag atan(ωτ), ω = 2π/P (linear systems, common knowledge).</summary>
    /// <param name="timeConstant">τ, 0 or more.</param>
    /// <param name="period">P, above 0.</param>
    /// <returns>The ratio of amplitudes and the lag, below a quarter of a cycle.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The period is zero, or a time is negative.</exception>
    public static PeriodicResponse Driven(TimeSpan timeConstant, TimeSpan period)
    {
        FormulaInput.NotNegative(timeConstant.TotalSeconds, "s", nameof(timeConstant));
        FormulaInput.Positive(period.TotalSeconds, "s", nameof(period));
        var angle = 2 * Math.PI * (timeConstant / period);
        return new(1 / Math.Sqrt(1 + (angle * angle)), Math.Atan(angle));
    }
}
