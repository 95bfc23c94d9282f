using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>What the inspected parts of a feature scatter by when their predicted effect is taken away.</summary>
internal sealed class ResidualScatter(IReadOnlyList<FeatureEvidence> all)
{
    private const int Enough = 5;
    private readonly Dictionary<(string, string), double> known = [];

    /// <summary>Standard deviation in µm; an eighth of the tolerance where fewer than five parts were inspected.</summary>
    public double Of(string part, Feature feature)
    {
        if (known.TryGetValue((part, feature.Id), out var found)) return found;
        double[] rest =
        [
            .. all.Where(one => one.Inspected.Worst.Part == part && one.Inspected.Feature.Id == feature.Id && one.AtReference.Worst.Micrometres is not null && double.IsFinite(one.PredictedMicrometres))
                .Select(one => one.AtReference.Worst.Micrometres!.Value - one.PredictedMicrometres),
        ];
        var scatter = rest.Length >= Enough ? Univariate.StandardDeviation(rest) : ExposedPart.UsualScatterShare * feature.ToleranceMillimetres * 1000;
        return known[(part, feature.Id)] = scatter;
    }
}
