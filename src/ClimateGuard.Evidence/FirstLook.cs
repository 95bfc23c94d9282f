using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>What one inspected feature says by itself, before the others are looked at.</summary>
internal static class FirstLook
{
    public static FeatureEvidence At(EvidenceQuestion question, InspectedFeature inspected, CutTable cuts)
    {
        var part = question.Cell.FindPart(inspected.Worst.Part) ?? question.Cell.FindPart(inspected.Step.Part)!;
        var reference = FeatureAtReference.Of(inspected, part.Material);
        var cut = cuts.Of(inspected.Step);
        var budget = inspected.Feature.Budget.MicrometresFor(inspected.Feature.ToleranceMillimetres);
        var exposure = cut is null ? null : Exposure.Of(cut, inspected.Feature.Id, budget);
        var recomputed = cut is null ? null : cuts.Predicted(cut, inspected.Feature.Id);
        var pattern = cut is not null && recomputed is not null && inspected.Feature is PositionFeature position && reference.Holes.Count > 0
            ? PatternEvidence.Of(cut, position, reference.Holes, recomputed.UMicrometres)
            : null;
        var trend = pattern is null ? null : TrendThermometer.Of(cut!, (PositionFeature)inspected.Feature, pattern, recomputed!.UMicrometres);
        var predicted = Towards(reference, pattern, pattern?.Predicted, recomputed);
        var given = CaseOf(inspected, reference, exposure, recomputed, pattern, predicted);
        var bare = new FeatureEvidence
        {
            Inspected = inspected, AtReference = reference, Cut = cut, Exposure = exposure, Recomputed = recomputed, Pattern = pattern, PredictedMicrometres = predicted,
            Frozen = cut?.Frozen.GetValueOrDefault(inspected.Feature.Id),
            Trend = trend, Case = trend is null ? given : Informed(given, trend, Towards(reference, pattern, trend.Predicted, recomputed)),
            Verdict = new Verdict(VerdictLevel.NotAssessable, "", [], []), AtZeroEffect = ZeroEffect.NotKnown,
        };
        return bare with { AtZeroEffect = WithoutEffect(bare) };
    }

    // Of a pattern, the part of the prediction that points the way its worst hole went; diametral like the deviation.
    private static double Towards(FeatureAtReference reference, PatternEvidence? pattern, IReadOnlyList<HoleDeviation>? holes, Prediction? recomputed)
    {
        if (pattern is not null && holes is not null)
        {
            for (var i = 0; i < pattern.Measured.Count; i++)
            {
                if (pattern.Measured[i].Hole != reference.WorstHole) continue;
                var (hole, predicted) = (pattern.Measured[i].Deviation, holes[i]);
                var length = double.Hypot(hole.Dx, hole.Dy);
                return length > 0 ? 2 * ((predicted.Dx * hole.Dx) + (predicted.Dy * hole.Dy)) / length : 0;
            }
        }

        return recomputed?.MeanMicrometres ?? double.NaN;
    }

    // The prediction itself stays as it is; the ladder looks at what the trend makes of it.
    private static VerdictCase Informed(VerdictCase given, TrendThermometer trend, double towards) =>
        given with { PredictedMicrometres = towards, UPredicted = trend.UMicrometres, Pattern = trend.Match, FromTrend = trend.Words };

    private static VerdictCase CaseOf(
        InspectedFeature inspected, FeatureAtReference reference, Exposure? exposure, Prediction? recomputed, PatternEvidence? pattern, double predicted)
    {
        var missing = new List<string>();
        if (exposure is null) missing.Add("no stored readings of the cut");
        else if (recomputed is null) missing.Add("the effect during the cut could not be computed");
        if (reference.Worst.Micrometres is null && !(double.IsFinite(reference.Worst.Range.Low) && double.IsFinite(reference.Worst.Range.High)))
            missing.Add("the measurement cannot be taken to 20 °C: " + reference.Worst.Note);
        return new VerdictCase
        {
            Missing = missing,
            KnownShare = exposure?.KnownShare ?? 1,
            DeviationMicrometres = reference.Worst.Micrometres,
            UDeviation = reference.Worst.StandardUncertainty ?? 0,
            PredictedMicrometres = double.IsFinite(predicted) ? predicted : 0,
            UPredicted = recomputed?.UMicrometres ?? 0,
            HasSign = inspected.Feature is not (PositionFeature or CoaxialityFeature) || pattern is not null,
            Pattern = inspected.Feature is not PositionFeature ? PatternMatch.NotApplicable : pattern?.Match ?? PatternMatch.NotChecked,
        };
    }

    private static ZeroEffect WithoutEffect(FeatureEvidence one)
    {
        if (one.AtReference.Worst.Micrometres is not { } y || one.Recomputed is not { } x) return ZeroEffect.NotKnown;
        var u = double.Hypot(one.AtReference.Worst.StandardUncertainty ?? 0, x.UMicrometres);
        var tolerance = one.Inspected.Feature.ToleranceMillimetres * 1000;
        if (one.Pattern is not { } pattern) return ZeroEffect.Of(y - one.PredictedMicrometres, u, tolerance);
        var rest = pattern.Measured.Zip(pattern.Predicted, (hole, p) => 2 * double.Hypot(hole.Deviation.Dx - p.Dx, hole.Deviation.Dy - p.Dy)).Max();
        return ZeroEffect.Of(rest, u, tolerance);
    }
}
