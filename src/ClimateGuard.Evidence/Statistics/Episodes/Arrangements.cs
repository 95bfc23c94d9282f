namespace ClimateGuard.Evidence;

/// <summary>The different ways to deal exposures to the episodes of each stratum.</summary>
internal static class Arrangements
{
    private const double Most = 1e300;

    /// <summary>Π over strata of n!/Π(equal exposures)!, at most 1e300; a double, for it may be beyond any integer.</summary>
    public static double Count(IReadOnlyList<int[]> strata, IReadOnlyList<double> exposures)
    {
        var all = 1.0;
        foreach (var stratum in strata)
        {
            var placed = 0;
            foreach (var equal in stratum.GroupBy(i => exposures[i]).Select(group => group.Count()))
            {
                // Multiplied one by one as binomials: each product is a whole number.
                for (var k = 1; k <= equal; k++) all = Math.Min(all * ++placed / k, Most);
            }
        }

        return Math.Round(all);
    }

    /// <summary>Every arrangement once; the list given is reused, so look at it before asking for the next.</summary>
    public static IEnumerable<double[]> All(IReadOnlyList<int[]> strata, IReadOnlyList<double> exposures)
    {
        var values = exposures.ToArray();
        double[][] sorted = [.. strata.Select(stratum => stratum.Select(i => exposures[i]).Order().ToArray())];
        for (var s = 0; s < strata.Count; s++) Deal(values, strata[s], sorted[s]);
        while (true)
        {
            yield return values;
            var turn = 0;
            while (turn < strata.Count && !NextPermutation(sorted[turn]))
            {
                // This stratum has run through; it starts again and the next one moves by one.
                Array.Sort(sorted[turn]);
                Deal(values, strata[turn], sorted[turn]);
                turn++;
            }

            if (turn == strata.Count) yield break;
            Deal(values, strata[turn], sorted[turn]);
        }
    }

    private static void Deal(double[] values, int[] places, double[] dealt)
    {
        for (var i = 0; i < places.Length; i++) values[places[i]] = dealt[i];
    }

    /// <summary>The next arrangement in dictionary order, equal values never exchanged; false after the last.</summary>
    private static bool NextPermutation(double[] values)
    {
        var i = values.Length - 2;
        while (i >= 0 && values[i] >= values[i + 1]) i--;
        if (i < 0) return false;
        var j = values.Length - 1;
        while (values[j] <= values[i]) j--;
        (values[i], values[j]) = (values[j], values[i]);
        Array.Reverse(values, i + 1, values.Length - i - 1);
        return true;
    }
}
