using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>When a held finish cut may start, with the machine as it is while held: spindle still, part wet and then dry, air as forecast.</summary>
/// <remarks>
/// Waiting has its own course, so the present trend says nothing. A start is released when over the whole cut and a margin the probability of
/// an exceedance is at most <see cref="ProbabilityLimits.ReleaseHold"/> and |effect| + k·u stays within the budget at every moment, with
/// the covariance carried on, not measured again. Looked at on a grid that is fine near now, then refined to a minute.
/// </remarks>
public static class EarliestSafeTime
{
    /// <summary>Finds it.</summary>
    /// <param name="model">The model of the machine with its part.</param>
    /// <param name="state">The state now; it is not changed.</param>
    /// <param name="hold">How it is held, and the cut that waits.</param>
    /// <param name="policies">Limits and guard factor.</param>
    /// <param name="start">The case: now, at a time, or not within the forecast.</param>
    /// <returns>False when it is not within the forecast.</returns>
    /// <exception cref="InvalidOperationException">Nothing is loaded, so nothing waits.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The horizon, a duration or the number of paths lies outside its range, or a temperature in use is not known.</exception>
    /// <exception cref="NotSupportedException">The model has a link that the fast paths cannot follow.</exception>
    public static bool TryFind(ThermalModel model, ThermalState state, HoldAhead hold, Policies policies, out EarliestStart start)
    {
        start = Find(model, state, hold, policies, evenIfNot: true)!;
        return start is not NotWithinForecast;
    }

    /// <summary>The same, but null, and much sooner, when it is not within the forecast: nobody asks on what share of the truths it is safe.</summary>
    internal static EarliestStart? FindIfReleased(ThermalModel model, ThermalState state, HoldAhead hold, Policies policies) =>
        Find(model, state, hold, policies, evenIfNot: false);

    private static EarliestStart? Find(ThermalModel model, ThermalState state, HoldAhead hold, Policies policies, bool evenIfNot)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(hold);
        ArgumentNullException.ThrowIfNull(policies);
        Check(model, hold);
        var kernel = CutKernel.Rent(model);
        try
        {
            return new StartSearch(model, state, hold, policies, new HeldPaths(model, state, hold, kernel)).Find(evenIfNot);
        }
        finally
        {
            kernel.Return();
        }
    }

    private static void Check(ThermalModel model, HoldAhead hold)
    {
        if (model.Part is null)
        {
            throw new InvalidOperationException("Nothing is loaded on the machine, so no cut waits for an earliest time.");
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(hold.Horizon, TimeSpan.FromMinutes(1), nameof(hold));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(hold.Horizon, TimeSpan.FromHours(48), nameof(hold));
        ArgumentOutOfRangeException.ThrowIfLessThan(hold.Margin, TimeSpan.Zero, nameof(hold));
        ArgumentOutOfRangeException.ThrowIfLessThan(hold.Cut.Paths, 100, nameof(hold));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(hold.Cut.Paths, 100_000, nameof(hold));
        FastCutPaths.RequireFinite(hold.Cut.Surroundings, hold.Cut.AirCelsius);
        foreach (var (around, _) in hold.Phases(model.Noise))
        {
            FastCutPaths.RequireFinite(around, hold.Cut.AirCelsius);
        }
    }
}
