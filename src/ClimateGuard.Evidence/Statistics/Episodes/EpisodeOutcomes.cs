using System.Runtime.CompilerServices;

namespace ClimateGuard.Evidence;

/// <summary>Episodes with outcomes centred in their strata: what stays the same while exposures move.</summary>
internal sealed class EpisodeOutcomes
{
    private readonly double[] _parts;
    private readonly double[] _means;
    private readonly int[][] _strata;

    // Of each episode how far its outcome lies from the mean of its stratum, and of each stratum how many parts it has.
    private readonly double[] _departures;
    private readonly double[] _partsOfStratum;

    private EpisodeOutcomes(double[] exposures, double[] parts, double[] means, int[][] strata)
    {
        Exposures = exposures;
        _parts = parts;
        _means = means;
        _strata = strata;
        _departures = new double[means.Length];
        _partsOfStratum = new double[strata.Length];
        for (var s = 0; s < strata.Length; s++)
        {
            double all = 0, y = 0;
            foreach (var i in strata[s])
            {
                all += parts[i];
                y += parts[i] * means[i];
            }

            _partsOfStratum[s] = all;
            foreach (var i in strata[s]) _departures[i] = means[i] - (y / all);
        }
    }

    public IReadOnlyList<double> Exposures { get; }

    /// <summary>The places of the episodes of each stratum.</summary>
    public IReadOnlyList<int[]> Strata => _strata;

    public static EpisodeOutcomes Of(IReadOnlyList<Episode> episodes)
    {
        ArgumentNullException.ThrowIfNull(episodes);
        if (episodes.Count < 2) throw new ArgumentException($"Two episodes or more are compared; given: {episodes.Count}.", nameof(episodes));
        for (var i = 0; i < episodes.Count; i++)
        {
            EvidenceInput.Finite(episodes[i].Exposure, $"exposure of episode {i + 1}");
            EvidenceInput.Sample(episodes[i].Outcomes, 1, $"outcomes of episode {i + 1}");
        }

        return new EpisodeOutcomes(
            [.. episodes.Select(episode => episode.Exposure)],
            [.. episodes.Select(episode => (double)episode.Outcomes.Count)],
            [.. episodes.Select(episode => Univariate.CentralMean(episode.Outcomes))],
            [.. Enumerable.Range(0, episodes.Count).GroupBy(i => episodes[i].Stratum, StringComparer.Ordinal).Select(group => group.ToArray())]);
    }

    /// <summary>Slopes nearer to each other than this are the same slope: 1e-10 of the steepest that these values could show.</summary>
    public double Rounding
    {
        get
        {
            var height = _means.Max() - _means.Min();
            var width = Exposures.Max() - Exposures.Min();
            return width > 0 ? 1e-10 * height / width : 0;
        }
    }

    /// <summary>Σ n(x − x̄)(ȳ − ȳ̄)/Σ n(x − x̄)² within strata; 0 where exposures do not differ.</summary>
    public double Slope(IReadOnlyList<double> exposures) => Slope(exposures as double[] ?? [.. exposures]);

    // Ten thousand arrangements of a year are over before the runtime would have noticed that it pays to compile this well.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private double Slope(double[] exposures)
    {
        double products = 0, squares = 0;
        for (var s = 0; s < _strata.Length; s++)
        {
            var stratum = _strata[s];
            double x = 0;
            foreach (var i in stratum) x += _parts[i] * exposures[i];
            var mean = x / _partsOfStratum[s];
            foreach (var i in stratum)
            {
                var distance = exposures[i] - mean;
                products += _parts[i] * distance * _departures[i];
                squares += _parts[i] * distance * distance;
            }
        }

        return squares > 0 ? products / squares : 0;
    }
}
