using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The first-order filter dθ/dt = (u − θ)/τ, stepped exactly however long the step.</summary>
/// <remarks>
/// With u straight between samples: θ₁ = u₁ − m·τ·(1 − a) + a·(θ₀ − u₀), a = exp(−Δt/τ), m = (u₁ − u₀)/Δt.
/// With u kept: θ₁ = u₀ + a·(θ₀ − u₀). Both are the closed solution of the equation, so a step cut in two gives the same θ.
/// </remarks>
public static class ExactFilter
{
    /// <summary>θ after one step.</summary>
    /// <param name="state">θ at the begin, in K.</param>
    /// <param name="inputBefore">u at the begin, in K.</param>
    /// <param name="inputAfter">u at the end, in K; not looked at when the input is kept.</param>
    /// <param name="step">Length of the step, above zero.</param>
    /// <param name="timeConstant">τ, above zero.</param>
    /// <param name="hold">What u does between.</param>
    /// <returns>θ at the end.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A step or time constant that is not above zero, or a value that is not a number.
    /// </exception>
    public static Kelvins Step(
        Kelvins state, Kelvins inputBefore, Kelvins inputAfter, TimeSpan step, TimeSpan timeConstant, InputHold hold)
    {
        RequireNumber(state.Value, nameof(state));
        RequireNumber(inputBefore.Value, nameof(inputBefore));
        RequireNumber(inputAfter.Value, nameof(inputAfter));
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(step, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(timeConstant, TimeSpan.Zero);
        Span<double> hours = [0.0, step.TotalHours];
        Span<double> input = [inputBefore.Value, inputAfter.Value];
        Span<double> result = stackalloc double[2];
        Respond(hours, input, timeConstant.TotalHours, hold, state.Value, result);
        return new Kelvins(result[1]);
    }

    /// <summary>θ at each sample of an input; inner code, the caller has checked lengths, order and τ.</summary>
    internal static void Respond(
        ReadOnlySpan<double> hours, ReadOnlySpan<double> input, double tauHours, InputHold hold, double start, Span<double> result)
    {
        var state = start;
        result[0] = state;
        var step = double.NaN;
        double decay = 0.0, lag = 0.0;
        for (var i = 1; i < hours.Length; i++)
        {
            var next = hours[i] - hours[i - 1];
            // Loggers keep their pace, so the exponential is nearly always the one of the step before.
            if (next != step)
            {
                step = next;
                decay = Math.Exp(-step / tauHours);
                lag = hold == InputHold.PiecewiseLinear ? tauHours / step * (1.0 - decay) : 1.0;
            }

            var rise = hold == InputHold.PiecewiseLinear ? input[i] - input[i - 1] : 0.0;
            state = input[i - 1] + rise - (rise * lag) + (decay * (state - input[i - 1]));
            result[i] = state;
        }
    }

    private static void RequireNumber(double value, string name)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(name, value, "A temperature difference must be a finite number of kelvins.");
        }
    }
}
