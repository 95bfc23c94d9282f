using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Where each hole of a pattern was predicted to lie later at 20 °C, by the moment it was cut and the way the pattern was cut.</summary>
/// <remarks>
/// Hole i lies at eps·rᵢ plus the drift D: as it is where the axes move, turned with the table where it indexes, and on the second half of a two-sided
/// part as a half-turn about the table's axis leaves it: 2·(u·D)·u − D, which is (−X, +Y) about B, (+X, −Y) about A and (−X, −Y) about C
/// (derived at <see cref="IndexedSide"/>). A fixture pin, gradient or bolted plate moves the whole and is not in here.
/// </remarks>
public static class PatternPrediction
{
    /// <summary>The predicted deviations, one for each hole of the plant file; NaN where the moment of a hole is not known.</summary>
    /// <param name="cut">The cut with its samples.</param>
    /// <param name="feature">The pattern.</param>
    /// <returns>The holes, and whether their moments are recorded; else they are spread evenly over the cut in their order.</returns>
    public static (IReadOnlyList<HoleDeviation> Holes, IReadOnlyList<DateTimeOffset> Times, bool Recorded) Of(CutExposure cut, PositionFeature feature)
    {
        ArgumentNullException.ThrowIfNull(cut);
        ArgumentNullException.ThrowIfNull(feature);
        var window = cut.Of(feature.Id);
        var (times, recorded) = Times(cut.Step, feature, window);
        HoleDeviation[] holes =
        [
            .. feature.Points.Select((point, i) => Nearest(window, times[i]) is { Known: true } sample
                ? At(point, sample.EpsMicrometresPerMetre, sample.Drift, feature.Strategy, i >= feature.Points.Count / 2 ? cut.Machine.IndexAxis : null)
                : new HoleDeviation(point.X, point.Y, double.NaN, double.NaN)),
        ];
        return (holes, times, recorded);
    }

    /// <summary>The predicted deviation of one hole.</summary>
    /// <param name="point">Its place from the datum, in mm.</param>
    /// <param name="eps">Mismatch, in µm/m.</param>
    /// <param name="drift">Drift in machine axes, in µm.</param>
    /// <param name="strategy">How the pattern is cut.</param>
    /// <param name="turnedAbout">The axis of the half-turn before it, when it belongs to the second half of a two-sided part; else null.</param>
    public static HoleDeviation At(PatternPoint point, double eps, AxisDrift drift, CuttingStrategy strategy, RotaryAxis? turnedAbout)
    {
        var (x, y) = strategy switch
        {
            CuttingStrategy.TableIndexed or CuttingStrategy.Turned when point.Radius > 0 => (
                ((drift.X * point.X) - (drift.Y * point.Y)) / point.Radius, ((drift.X * point.Y) + (drift.Y * point.X)) / point.Radius),
            CuttingStrategy.TwoSided when turnedAbout is { } axis => Turned(drift, IndexedSide.AfterHalfTurn(axis)),
            _ => (drift.X, drift.Y),
        };
        return new HoleDeviation(point.X, point.Y, (eps * point.X / 1000) + x, (eps * point.Y / 1000) + y);
    }

    private static (double X, double Y) Turned(AxisDrift drift, IndexedSide side) => (drift.X * side.X, drift.Y * side.Y);

    private static (DateTimeOffset[] Times, bool Recorded) Times(WorkStep step, PositionFeature feature, IReadOnlyList<ExposureSample> window)
    {
        var count = feature.Points.Count;
        var told = step.Cuts.Where(cut => cut.Hole is >= 1 && cut.Hole <= count && (cut.Feature is null || cut.Feature == feature.Id))
            .GroupBy(cut => cut.Hole!.Value).ToDictionary(cuts => cuts.Key, cuts => cuts.Last().End ?? cuts.Last().Start);
        if (told.Count == count) return ([.. Enumerable.Range(1, count).Select(hole => told[hole])], true);
        if (window.Count == 0) return ([.. Enumerable.Repeat(step.Begin, count)], false);
        var length = window[^1].Time - window[0].Time;
        return ([.. Enumerable.Range(0, count).Select(i => window[0].Time + (length * ((i + 0.5) / count)))], false);
    }

    private static ExposureSample? Nearest(IReadOnlyList<ExposureSample> window, DateTimeOffset time) =>
        window.Count == 0 ? null : window.MinBy(sample => (sample.Time - time).Duration());
}
