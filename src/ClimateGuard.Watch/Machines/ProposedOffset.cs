using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>An offset that would make the cut safe, for a setter to set; the program never does.</summary>
/// <param name="ScaleFactor">Factor on the program about the datum, near 1.</param>
/// <param name="ShiftXMicrometres">Shift of the work offset in X, in µm.</param>
/// <param name="ShiftYMicrometres">Shift of the work offset in Y, in µm.</param>
/// <param name="ShiftZMicrometres">Shift of the work offset in Z, in µm.</param>
/// <param name="Feature">The feature that would then be the worst.</param>
/// <param name="EffectMicrometres">Its largest effect over the cut, in µm, with its sign.</param>
/// <param name="UMicrometres">Its standard uncertainty, in µm.</param>
/// <param name="BudgetMicrometres">Its budget, in µm.</param>
/// <param name="Probability">Probability that it leaves the budget during the cut.</param>
public sealed record ProposedOffset(
    double ScaleFactor, double ShiftXMicrometres, double ShiftYMicrometres, double ShiftZMicrometres,
    string Feature, double EffectMicrometres, double UMicrometres, double BudgetMicrometres, double Probability)
{
    internal static ProposedOffset? Of(IReadOnlyList<RankedAction> actions) =>
        actions.FirstOrDefault(action => action is { Kind: ActionKind.Offset, ReachesSafety: true })?.Offset is { AsProposed: { } result } offset
            ? new ProposedOffset(
                offset.ScaleFactor, offset.ShiftXMicrometres, offset.ShiftYMicrometres, offset.ShiftZMicrometres,
                result.Feature, result.Worst.EffectMicrometres, result.Worst.UMicrometres, result.BudgetMicrometres, result.Probability)
            : null;
}

/// <summary>An offset that a setter has set for the part on the machine.</summary>
/// <param name="At">When.</param>
/// <param name="By">Who.</param>
/// <param name="ScaleFactor">Factor on the program about the datum.</param>
/// <param name="ShiftXMicrometres">Shift in X, in µm.</param>
/// <param name="ShiftYMicrometres">Shift in Y, in µm.</param>
/// <param name="ShiftZMicrometres">Shift in Z, in µm.</param>
public sealed record StandingOffset(
    DateTimeOffset At, string By, double ScaleFactor, double ShiftXMicrometres, double ShiftYMicrometres, double ShiftZMicrometres)
{
    /// <summary>What an offset may have moved since it was set, as a share of each budget (common practice, no source).</summary>
    public const double MostMovedShare = 0.125;

    internal static StandingOffset Of(OffsetSet set) =>
        new(set.Time, set.By, set.ScaleFactor, set.ShiftXMicrometres, set.ShiftYMicrometres, set.ShiftZMicrometres);

    /// <summary>Whether the cut would still be safe with it: the offset that would be proposed now is almost the same, and leaves room for the rest.</summary>
    /// <param name="proposed">What would be proposed now, or null when nothing could.</param>
    /// <param name="part">The part.</param>
    /// <param name="guardFactor">How many standard uncertainties are kept free.</param>
    internal bool Fits(ProposedOffset? proposed, Part part, double guardFactor) =>
        proposed is not null
        && part.Features.All(feature => MovedMicrometres(proposed, feature) <= MostMovedShare * feature.Budget.MicrometresFor(feature.ToleranceMillimetres))
        && Math.Abs(proposed.EffectMicrometres) + (guardFactor * proposed.UMicrometres) <= (1 - MostMovedShare) * proposed.BudgetMicrometres;

    /// <summary>How far the effect on a feature may at most lie from what the proposal of now would leave, in µm.</summary>
    private double MovedMicrometres(ProposedOffset proposed, Feature feature)
    {
        var (x, y, z) = (ShiftXMicrometres - proposed.ShiftXMicrometres, ShiftYMicrometres - proposed.ShiftYMicrometres, ShiftZMicrometres - proposed.ShiftZMicrometres);
        var shift = feature is SizeFeature ? 0 : Math.Sqrt((x * x) + (y * y) + (z * z));
        return Diametral(feature) * (shift + (Math.Abs(ScaleFactor - proposed.ScaleFactor) * 1e3 * ReachMillimetres(feature)));
    }

    private static double Diametral(Feature feature) => feature is PositionFeature or CoaxialityFeature ? 2 : 1;

    private static double ReachMillimetres(Feature feature) => feature switch
    {
        PositionFeature position => position.Points.Max(point => point.Radius),
        SizeFeature size => size.NominalMillimetres,
        DepthFeature depth => depth.NominalMillimetres,
        DistanceFeature distance => distance.NominalMillimetres,
        _ => 0,
    };
}
