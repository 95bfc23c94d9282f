namespace ClimateGuard.Thermal;

/// <summary>The way into the fast paths, with the checks that <see cref="CutKernel"/> does without.</summary>
internal static class FastCutPaths
{
    /// <summary>The share of paths that exceed, one for each feature.</summary>
    /// <param name="model">The model with its part.</param>
    /// <param name="state">The state at the begin; it is not changed.</param>
    /// <param name="cut">The cut.</param>
    /// <param name="durations">The duration for each feature, positive.</param>
    /// <param name="probabilities">Where the shares go, one for each feature.</param>
    /// <param name="offsetMicrometresPerMetre">A mismatch that an offset in the control takes off, in µm/m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A temperature in use is not finite, or too few or many paths are asked.</exception>
    public static void Exceedance(
        ThermalModel model,
        ThermalState state,
        CutAhead cut,
        ReadOnlySpan<TimeSpan> durations,
        Span<double> probabilities,
        double offsetMicrometresPerMetre = 0)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(cut.Paths, 100);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(cut.Paths, 100_000);
        RequireFinite(cut.Surroundings, cut.AirCelsius);
        var kernel = CutKernel.Rent(model);
        try
        {
            kernel.Features.OffsetMicrometresPerMetre = offsetMicrometresPerMetre;
            if (!kernel.TryExceedance(state, cut, durations, probabilities))
            {
                if (offsetMicrometresPerMetre != 0)
                {
                    throw new NotSupportedException("The model has a link that the fast paths cannot follow, so an offset cannot be judged.");
                }

                CutPaths.Exceedance(model, state, cut, durations).CopyTo(probabilities);
            }
        }
        finally
        {
            kernel.Features.OffsetMicrometresPerMetre = 0;
            kernel.Return();
        }
    }

    /// <summary>Refuses a course whose temperatures are not known.</summary>
    public static void RequireFinite(in Surroundings surroundings, IReadOnlyList<double> airCelsius)
    {
        if (surroundings.Medium == Medium.Still)
        {
            return;
        }

        Require(airCelsius.Count > 0 ? airCelsius[0] : surroundings.AirCelsius, "the air");
        for (var minute = 1; minute < airCelsius.Count; minute++)
        {
            Require(airCelsius[minute], "the air forecast");
        }

        Require((airCelsius.Count > 0 ? surroundings with { AirCelsius = airCelsius[0] } : surroundings).SinkCelsius, "what covers the part");
        Require(surroundings.SpindleLoad, "the load of the spindle");
    }

    private static void Require(double value, string what)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(what, value, $"A cut ahead needs {what} as a number; say that it is not known instead of asking.");
        }
    }
}
