using System.Runtime.CompilerServices;
using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Would the exposures, dealt to the episodes in another way, explain the outcomes as well?</summary>
/// <remarks>
/// Permutation of whole episodes (Good, Permutation, Parametric and Bootstrap Tests of Hypotheses, from memory). The statistic is the
/// slope of outcome on exposure within strata, weighted by parts; for exposures of 0 and 1 that is the difference of the two means. Up to
/// 20 000 arrangements are all counted; beyond, a seeded draw of 9 999 is, with the seen arrangement among them, so p is never 0.
/// </remarks>
public static class EpisodePermutation
{
    /// <summary>Up to so many arrangements every one is counted.</summary>
    public const int CountedUpTo = 20_000;

    /// <summary>How many arrangements are drawn beyond that.</summary>
    public const int Draws = 9_999;

    /// <summary>Exchanges the exposures among the episodes of each stratum.</summary>
    /// <param name="episodes">Two or more in any order.</param>
    /// <param name="alternative">Greater: more exposure, larger outcome.</param>
    /// <param name="seed">Of the draw, where not every arrangement is counted; the same seed gives the same p.</param>
    /// <returns>The slope with its p, and the smallest p these episodes could ever give.</returns>
    /// <exception cref="ArgumentException">There are fewer than two episodes, or an episode has no part.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static PermutationResult Exchange(
        IReadOnlyList<Episode> episodes, Alternative alternative = Alternative.Greater, ulong seed = 1)
    {
        var outcomes = EpisodeOutcomes.Of(episodes);
        var arrangements = Arrangements.Count(outcomes.Strata, outcomes.Exposures);
        var seen = outcomes.Slope(outcomes.Exposures);
        if (arrangements <= CountedUpTo)
        {
            var asExtreme = Arrangements.All(outcomes.Strata, outcomes.Exposures)
                .Count(exposures => IsAsExtreme(outcomes.Slope(exposures), seen, outcomes.Rounding, alternative));
            return PermutationResult.Of(seen, asExtreme / arrangements, arrangements, exact: true, 1 / arrangements);
        }

        var chance = new UniformStream(seed);
        var shuffled = outcomes.Exposures.ToArray();
        var count = 1;
        for (var draw = 0; draw < Draws; draw++)
        {
            foreach (var stratum in outcomes.Strata) Shuffle(shuffled, stratum, chance);
            if (IsAsExtreme(outcomes.Slope(shuffled), seen, outcomes.Rounding, alternative)) count++;
        }

        var smallest = Math.Max(1 / arrangements, 1.0 / (Draws + 1));
        return PermutationResult.Of(seen, count / (Draws + 1.0), arrangements, exact: false, smallest);
    }

    /// <summary>Shifts the series of exposures against the outcomes by whole episodes, round the end.</summary>
    /// <remarks>Keeps the runs of warm shifts together, which an exchange would tear apart. As many arrangements as episodes.</remarks>
    /// <param name="episodes">Two or more in the order of time; strata are kept as they are for the slope.</param>
    /// <param name="alternative">Greater: more exposure, larger outcome.</param>
    /// <returns>The slope with its p, and the smallest p these episodes could ever give.</returns>
    /// <exception cref="ArgumentException">There are fewer than two episodes, or an episode has no part.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static PermutationResult CircularShift(IReadOnlyList<Episode> episodes, Alternative alternative = Alternative.Greater)
    {
        var outcomes = EpisodeOutcomes.Of(episodes);
        var n = outcomes.Exposures.Count;
        var seen = outcomes.Slope(outcomes.Exposures);
        var asExtreme = 0;
        var shifted = new double[n];
        for (var shift = 0; shift < n; shift++)
        {
            for (var i = 0; i < n; i++) shifted[i] = outcomes.Exposures[(i + shift) % n];
            if (IsAsExtreme(outcomes.Slope(shifted), seen, outcomes.Rounding, alternative)) asExtreme++;
        }

        return PermutationResult.Of(seen, (double)asExtreme / n, n, exact: true, 1.0 / n);
    }

    // The same arrangement summed in another order must count as itself.
    private static bool IsAsExtreme(double slope, double seen, double rounding, Alternative alternative) => alternative switch
    {
        Alternative.Greater => slope >= seen - rounding,
        Alternative.Less => slope <= seen + rounding,
        _ => Math.Abs(slope) >= Math.Abs(seen) - rounding,
    };

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Shuffle(double[] values, int[] places, UniformStream chance)
    {
        for (var i = places.Length - 1; i > 0; i--)
        {
            var j = (int)(chance.Next() * (i + 1));
            (values[places[i]], values[places[j]]) = (values[places[j]], values[places[i]]);
        }
    }
}

/// <summary>What a permutation of episodes found; equality is by value.</summary>
/// <param name="Slope">Outcome per unit of exposure; for exposures of 0 and 1 the difference of the means.</param>
/// <param name="PValue">Share of arrangements as extreme as the one seen, itself included; in (0, 1].</param>
/// <param name="Arrangements">How many there are, at most 1e300.</param>
/// <param name="Exact">True when every one was counted, false when they were drawn.</param>
/// <param name="SmallestReachableP">What p would be at best, in (0, 1].</param>
/// <param name="Decidable">False when even the best p is above 0.05: cannot be decided with this many episodes.</param>
public sealed record PermutationResult(
    double Slope, double PValue, double Arrangements, bool Exact, double SmallestReachableP, bool Decidable)
{
    /// <summary>The level at which a permutation counts as evidence.</summary>
    public const double Level = 0.05;

    /// <summary>The sentence of a report where the episodes are too few, or empty.</summary>
    public string Caveat => Decidable ? "" : "cannot be decided with this many episodes";

    internal static PermutationResult Of(double slope, double p, double arrangements, bool exact, double smallest) =>
        new(slope, Math.Min(1, p), arrangements, exact, smallest, smallest <= Level);
}
