namespace ClimateGuard.Evidence;

/// <summary>Whether a thermal variable can be told from a recorded one by more than a few episodes; equality is by value.</summary>
/// <remarks>
/// ε² = 1 − (1 − η²)(n − 1)/(n − k) is η² less what few parts in several groups give by chance alone (Kelley 1935, from memory). Like every correlation
/// it breaks down at a single episode: one chiller that failed in 110 shifts takes it from 0.94 to 0.3, though on all the other days the temperature
/// still goes with the shift. Episodes are the unit, and a contrast that was seen in one of them is not repeated. So the ratio is also taken without the
/// one episode in twenty, one at least, that lies farthest from the median of its label: a trimmed correlation with a breakdown point of 5 % (Huber,
/// Robust Statistics, from memory; the share is common practice, no source). Only what stays at 0.8 or below both ways is told apart. Of fewer than ten
/// episodes none is left out: four or five that are left go with two shifts by chance too often.
/// </remarks>
/// <param name="Ratio">ε of all parts, in [0, 1]; 1 where each part has a label of its own.</param>
/// <param name="RatioWithoutFew">ε without those episodes, in [0, 1]; that of all where none can be spared.</param>
/// <param name="LeftOut">How many episodes those are; 0 where none can be spared.</param>
public sealed record EpisodeConfounding(double Ratio, double RatioWithoutFew, int LeftOut)
{
    /// <summary>So many of a hundred episodes must not decide, and one never.</summary>
    public const double FewShare = 0.05;

    /// <summary>Of fewer episodes none is left out.</summary>
    public const int FewestEpisodes = 10;

    /// <summary>The two go together in all parts, or in all but a few episodes.</summary>
    public bool CannotBeSeparated => Ratio > Confounding.Limit || RatioWithoutFew > Confounding.Limit;

    /// <summary>Holds the thermal variable against a recorded one.</summary>
    /// <param name="exposure">Of each part, finite; three values or more.</param>
    /// <param name="label">Shift, operator or machine of each part, as many; with one label for all there is nothing to confound.</param>
    /// <param name="episode">The episode of each part, as many.</param>
    /// <exception cref="ArgumentException">The lists differ in length or are too short.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static EpisodeConfounding Of(IReadOnlyList<double> exposure, IReadOnlyList<string> label, IReadOnlyList<string> episode)
    {
        ArgumentNullException.ThrowIfNull(episode);
        var places = Enumerable.Range(0, exposure.Count).ToArray();
        var ratio = Corrected(exposure, label, places);
        EvidenceInput.SameLength(exposure.Count, episode.Count, nameof(exposure), nameof(episode));
        var few = Farthest(exposure, label, episode);
        int[] rest = [.. places.Where(i => !few.Contains(episode[i]))];
        var labels = rest.Select(i => label[i]).Distinct(StringComparer.Ordinal).Count();
        // With one label left, or one for each part, the rest says nothing.
        return few.Count == 0 || labels <= 1 || labels == rest.Length
            ? new EpisodeConfounding(ratio, ratio, 0) : new EpisodeConfounding(ratio, Corrected(exposure, label, rest), few.Count);
    }

    private static double Corrected(IReadOnlyList<double> exposure, IReadOnlyList<string> label, int[] places)
    {
        string[] labels = [.. places.Select(i => label[i])];
        int n = labels.Length, k = labels.Distinct(StringComparer.Ordinal).Count();
        var ratio = Confounding.Of([.. places.Select(i => exposure[i])], labels).CorrelationRatio;
        return k == 1 || k == n ? ratio : Math.Sqrt(Math.Max(0, 1 - ((1 - (ratio * ratio)) * (n - 1) / (n - k))));
    }

    private static HashSet<string> Farthest(IReadOnlyList<double> exposure, IReadOnlyList<string> label, IReadOnlyList<string> episode)
    {
        var places = Enumerable.Range(0, exposure.Count).ToArray();
        var medians = places.GroupBy(i => label[i], StringComparer.Ordinal).ToDictionary(own => own.Key, own => Univariate.Median([.. own.Select(i => exposure[i])]), StringComparer.Ordinal);
        (string Name, double Away)[] episodes = [.. places.GroupBy(i => episode[i], StringComparer.Ordinal).Select(own => (own.Key, own.Max(i => Math.Abs(exposure[i] - medians[label[i]]))))];
        return episodes.OrderByDescending(one => one.Away).Take(episodes.Length < FewestEpisodes ? 0 : Math.Max(1, (int)(FewShare * episodes.Length))).Select(one => one.Name).ToHashSet(StringComparer.Ordinal);
    }
}
