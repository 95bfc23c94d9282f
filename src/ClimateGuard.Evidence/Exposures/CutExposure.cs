using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>One step of work with everything that was said of its temperatures, from before the cut to its end.</summary>
public sealed record CutExposure
{
    /// <summary>The step.</summary>
    public required WorkStep Step { get; init; }

    /// <summary>The part.</summary>
    public required Part Part { get; init; }

    /// <summary>The machine.</summary>
    public required Machine Machine { get; init; }

    /// <summary>Begin of the record of the cut; samples before it are what led to it.</summary>
    public required DateTimeOffset From { get; init; }

    /// <summary>End of the record of the cut.</summary>
    public required DateTimeOffset To { get; init; }

    /// <summary>The samples of the cut and of the hour before, oldest first, about one a minute.</summary>
    public IReadOnlyList<ExposureSample> Samples { get; init; } = [];

    /// <summary>What was predicted of each feature when the cut began, as it stood then.</summary>
    public IReadOnlyDictionary<string, Prediction> Frozen { get; init; } = new Dictionary<string, Prediction>(StringComparer.Ordinal);

    /// <summary>The samples between two moments, both included.</summary>
    public IReadOnlyList<ExposureSample> Between(DateTimeOffset from, DateTimeOffset to) => [.. Samples.Where(sample => sample.Time >= from && sample.Time <= to)];

    /// <summary>The samples of one feature's own cut, or of the whole cut where it has none of its own.</summary>
    /// <param name="feature">Id of the feature.</param>
    public IReadOnlyList<ExposureSample> Of(string feature)
    {
        var window = Step.Window(feature) ?? (From, To);
        var within = Between(window.Start, window.End ?? To);
        return within.Count > 0 ? within : Between(From, To);
    }

    /// <summary>Place of a feature in <see cref="ExposureSample.Effects"/>; -1 when the part has none of that id.</summary>
    public int IndexOf(string feature)
    {
        for (var i = 0; i < Part.Features.Count; i++)
        {
            if (Part.Features[i].Id == feature) return i;
        }

        return -1;
    }
}

/// <summary>What temperature was to do to a feature over its cut; equality is by value.</summary>
/// <param name="MeanMicrometres">Mean over the cut, in µm; NaN where only the largest was kept.</param>
/// <param name="WorstMicrometres">The largest expected, with its sign, in µm.</param>
/// <param name="UMicrometres">Standard uncertainty of the mean, in µm; NaN when it was not kept.</param>
/// <param name="Probability">That the effect leaves the budget, in [0, 1]; NaN where it was not worked out.</param>
/// <param name="At">The moment it was made at.</param>
/// <param name="Source">Where it stands: the outlook, answer or replay it comes from.</param>
public sealed record Prediction(
    double MeanMicrometres, double WorstMicrometres, double UMicrometres, double Probability, DateTimeOffset At, string Source)
{
    /// <summary>The effect as it was over a cut, by the samples; null when none of them is known.</summary>
    /// <remarks>u adds what the effect moved during the cut (half range over √3) to the largest u: when within the cut the surface was made is not known.</remarks>
    /// <param name="samples">Of the cut.</param>
    /// <param name="feature">Place of the feature in the samples.</param>
    public static Prediction? Recomputed(IReadOnlyList<ExposureSample> samples, int feature)
    {
        ArgumentNullException.ThrowIfNull(samples);
        ExposureSample[] known = [.. samples.Where(sample => sample.Known && feature >= 0 && feature < sample.Effects.Count && double.IsFinite(sample.Effects[feature].EffectMicrometres))];
        if (known.Length == 0) return null;
        double[] effects = [.. known.Select(sample => sample.Effects[feature].EffectMicrometres)];
        var spread = (effects.Max() - effects.Min()) / Math.Sqrt(12);
        return new Prediction(
            effects.Average(), effects.MaxBy(Math.Abs), double.Hypot(known.Max(sample => sample.Effects[feature].UMicrometres), spread), double.NaN,
            known[^1].Time, "replay of the stored readings");
    }
}
