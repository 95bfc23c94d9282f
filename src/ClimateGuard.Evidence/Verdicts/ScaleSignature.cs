using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>A pattern as the thermometer of the moment it was cut (F.4): its scale, held against what the machine makes without temperature.</summary>
/// <remarks>
/// A part whose blank nobody measured has a prediction that is hardly larger than its uncertainty, while its holes show a scale to a few µm/m. That scale
/// does not correct the prediction, which would then confirm itself (F.1). It is held against a rival instead: that the machine made it. What a machine
/// makes of scale without temperature is seen on the other parts of the feature whose prediction was good enough, no worse than half of this scale: what
/// is left of theirs. One that lies beyond the 95 % interval of the next such part (about 0, Student's t with one degree of freedom an episode), and
/// agrees with the predicted one in sign and within both uncertainties, is a signature.
/// </remarks>
public sealed class ScaleSignature
{
    /// <summary>From so many independent episodes the interval is taken.</summary>
    public const int FewestEpisodes = 4;

    private const double Confidence = 0.95;
    private readonly Dictionary<(string Part, string Feature, string Machine), Rest> known = [];

    /// <summary>What the scale shows, in words, or null.</summary>
    /// <param name="pattern">The pattern of the part, or null.</param>
    /// <param name="own">Its point in the group.</param>
    /// <param name="group">The group.</param>
    public string? Of(PatternEvidence? pattern, GroupPoint own, GroupEvidence group)
    {
        ArgumentNullException.ThrowIfNull(own);
        ArgumentNullException.ThrowIfNull(group);
        if (pattern is not { Match: PatternMatch.Matches, Compared: PatternComponent.Scale }) return null;
        if (!known.TryGetValue((group.Part, group.Feature, own.Machine), out var rest)) known[(group.Part, group.Feature, own.Machine)] = rest = Rest.Of(group, own.Machine);
        var (scatter, episodes) = rest.Without(own.Episode, Math.Abs(own.Measured) / 2);
        if (episodes < FewestEpisodes) return null;
        var makes = CoverageFactor.TwoSided(Confidence, episodes) * double.Hypot(scatter, own.UMeasured);
        if (Math.Abs(own.Measured) <= makes) return null;
        var scale = pattern.Fit.ScaleMicrometresPerMetre;
        return FormattableString.Invariant(
            $"the holes show a scale of {scale.Value:0.0} ± {scale.StandardError:0.0} µm/m with the predicted sign, beyond the ± {makes * Math.Abs(scale.Value / own.Measured):0.0} µm/m that {own.Machine} makes without temperature ({episodes} episodes)");
    }

    // What is left of each episode on one machine, by the uncertainty of its predictions, summed up so that each part asks without going through all.
    private sealed record Rest(double[] U, double[] Squares, Dictionary<string, int> Places)
    {
        public static Rest Of(GroupEvidence group, string machine)
        {
            // An episode is one observation, known as well as the worst known of its parts.
            (string Name, double U, double Square)[] episodes =
            [
                .. group.Points.Where(point => point.Machine == machine).GroupBy(point => point.Episode, StringComparer.Ordinal)
                    .Select(own => (own.Key, own.Max(point => point.UPredicted), own.Average(point => Math.Pow(point.Measured - point.Predicted, 2)))).OrderBy(episode => episode.Item2),
            ];
            var squares = new double[episodes.Length + 1];
            for (var i = 0; i < episodes.Length; i++) squares[i + 1] = squares[i] + episodes[i].Square;
            return new Rest([.. episodes.Select(episode => episode.U)], squares, Enumerable.Range(0, episodes.Length).ToDictionary(i => episodes[i].Name, StringComparer.Ordinal));
        }

        public (double Scatter, int Episodes) Without(string episode, double mostUncertain)
        {
            var count = 0;
            for (var high = U.Length; count < high;)
            {
                var middle = (count + high) / 2;
                if (U[middle] <= mostUncertain) count = middle + 1;
                else high = middle;
            }

            var (sum, own) = (Squares[count], Places[episode]);
            if (own < count) (sum, count) = (sum - (Squares[own + 1] - Squares[own]), count - 1);
            return (count > 0 ? Math.Sqrt(Math.Max(0, sum) / count) : double.NaN, count);
        }
    }
}
