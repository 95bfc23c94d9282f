using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How much of an inspected deviation temperature made, and how that is known.</summary>
/// <param name="Micrometres">In µm; for a position diametral.</param>
/// <param name="From">Where it comes from.</param>
public readonly record struct ThermalPart(double Micrometres, ThermalSource From)
{
    /// <summary>The thermal part of one inspected feature of one part.</summary>
    /// <remarks>
    /// Three or more inspected holes: 2·s·R of the fitted scale s at the hole farthest from the datum, since scale is mostly temperature, and
    /// independent of what was predicted. Else the prediction frozen when the cut began. Else nothing: a deviation alone has no cause.
    /// </remarks>
    /// <param name="feature">The feature.</param>
    /// <param name="values">Its inspected values of that part.</param>
    /// <param name="predicted">What was predicted when the cut began.</param>
    /// <returns>The part, or null when it is not known.</returns>
    public static ThermalPart? Of(Feature feature, IReadOnlyList<InspectionValue> values, IReadOnlyList<FrozenPrediction> predicted)
    {
        ArgumentNullException.ThrowIfNull(feature);
        ArgumentNullException.ThrowIfNull(values);
        ArgumentNullException.ThrowIfNull(predicted);
        if (feature is PositionFeature position && Scale(position, values) is { } scale)
        {
            return new ThermalPart(scale, ThermalSource.Pattern);
        }

        return predicted.LastOrDefault(known => known.Feature == feature.Id) is { } frozen
            ? new ThermalPart(frozen.EffectMicrometres, ThermalSource.Prediction)
            : null;
    }

    private static double? Scale(PositionFeature feature, IReadOnlyList<InspectionValue> values)
    {
        HoleDeviation[] holes =
        [
            .. values.Where(value => value.Hole is { } hole && hole >= 1 && hole <= feature.Points.Count && value.DxMicrometres is not null && value.DyMicrometres is not null)
                .GroupBy(value => value.Hole!.Value)
                .Select(hole => hole.Last())
                .Select(value => new HoleDeviation(
                    feature.Points[value.Hole!.Value - 1].X, feature.Points[value.Hole.Value - 1].Y, value.DxMicrometres!.Value, value.DyMicrometres!.Value)),
        ];
        if (holes.Length < 3)
        {
            return null;
        }

        try
        {
            var farthest = feature.Points.Max(point => double.Hypot(point.X, point.Y));
            return 2 * SimilarityFit.Of(holes).ScaleMicrometresPerMetre.Value * farthest / 1000;
        }
        catch (ArgumentException)
        {
            // Holes on top of each other say nothing about scale.
            return null;
        }
    }
}

/// <summary>How a thermal part is known.</summary>
public enum ThermalSource
{
    /// <summary>The scale of the inspected pattern.</summary>
    Pattern,

    /// <summary>The prediction frozen when the cut began.</summary>
    Prediction,
}
