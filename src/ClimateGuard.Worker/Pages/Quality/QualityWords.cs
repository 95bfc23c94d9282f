using System.Globalization;
using ClimateGuard.Edges.Board;
using ClimateGuard.Evidence;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Quality;

/// <summary>Evidence in words, for the quality engineer.</summary>
public static class QualityWords
{
    /// <summary>A length with its standard uncertainty, in µm.</summary>
    public static string PlusMinus(double? micrometres, double? u) =>
        micrometres is { } value && double.IsFinite(value) ? u is { } known && double.IsFinite(known) ? $"{Tenths(value)} ± {Tenths(known)} µm" : $"{Tenths(value)} µm" : "not known";

    /// <summary>An estimate with its standard error.</summary>
    public static string PlusMinus(Estimate estimate, string unit) => $"{Tenths(estimate.Value)} ± {Tenths(estimate.StandardError)} {unit}";

    /// <summary>A number with one decimal.</summary>
    public static string Tenths(double value) =>
        double.IsFinite(value) ? (Math.Round(value, 1) + 0.0).ToString("0.0", CultureInfo.InvariantCulture).Replace('-', '−') : "–";

    /// <summary>Deviation at 20 °C: one number, or the range that is all that is known.</summary>
    public static string Deviation(FeatureEvidence one)
    {
        ArgumentNullException.ThrowIfNull(one);
        var worst = one.AtReference.Worst;
        return worst.Micrometres is not null ? PlusMinus(worst.Micrometres, worst.StandardUncertainty)
            : double.IsFinite(worst.Range.Low) && double.IsFinite(worst.Range.High) ? $"{Tenths(worst.Range.Low)} to {Tenths(worst.Range.High)} µm" : "not known";
    }

    /// <summary>The tolerance as the drawing states it.</summary>
    public static string Tolerance(FeatureEvidence one)
    {
        ArgumentNullException.ThrowIfNull(one);
        var limit = Numbers.Micrometres(one.Inspected.Feature.ToleranceMillimetres * 1000);
        return one.Inspected.Feature is Plant.PositionFeature or Plant.CoaxialityFeature ? $"⌀{limit} µm" : $"±{limit} µm";
    }

    /// <summary>What the page has to say in one sentence.</summary>
    public static string Summary(IReadOnlyList<FeatureEvidence> features)
    {
        ArgumentNullException.ThrowIfNull(features);
        FeatureEvidence[] bad = [.. features.Where(one => !one.Inspected.InTolerance)];
        var parts = features.Select(one => one.Serial).Distinct(StringComparer.Ordinal).Count();
        var all = $"{Count(features.Count, "feature")} of {Count(parts, "part")} inspected";
        return bad.Length == 0 ? $"{all}, all in tolerance."
            : $"{all}, {bad.Length} out of tolerance: {string.Join("; ", bad.GroupBy(one => one.Verdict.Level).OrderByDescending(level => level.Key).Select(level => $"{level.Count()} {Short(level.Key)}"))}.";
    }

    /// <summary>Whether it would have been in tolerance at zero thermal effect, as a sentence.</summary>
    public static string ZeroEffectOf(FeatureEvidence one)
    {
        ArgumentNullException.ThrowIfNull(one);
        var rest = $"{PlusMinus(one.AtZeroEffect.RestMicrometres, one.AtZeroEffect.UMicrometres)} are left of {Deviation(one)}; the tolerance is {Tolerance(one)}";
        return one.AtZeroEffect.InTolerance switch
        {
            ZeroEffectAnswer.Yes => $"Would have been in tolerance at zero thermal effect: {rest}.",
            ZeroEffectAnswer.No => $"Would have been out of tolerance also at zero thermal effect: {rest}.",
            ZeroEffectAnswer.Uncertain => $"Whether it would have been in tolerance at zero thermal effect is uncertain: {rest}.",
            _ => "Whether it would have been in tolerance at zero thermal effect is not known: the deviation at 20 °C or the prediction is missing.",
        };
    }

    /// <summary>What the other parts of the feature say, or null where no line is fitted.</summary>
    public static string? Line(GroupEvidence group)
    {
        ArgumentNullException.ThrowIfNull(group);
        return group.Slope is { } slope
            ? string.Create(CultureInfo.InvariantCulture, $"Measured on predicted over {group.Points.Count} parts of {group.Episodes} shifts: slope {slope.Slope.Value:0.00}, 95 % from {slope.Interval.Low:0.00} to {slope.Interval.High:0.00} (1 is the size predicted, 0 no relation): {Of(slope.Finding)}.")
                .Replace("-", "−", StringComparison.Ordinal)
            : null;
    }

    /// <summary>How far the model of a machine may be trusted.</summary>
    public static string Validity(ModelValidity validity)
    {
        ArgumentNullException.ThrowIfNull(validity);
        var checks = validity.Checks.Count == 0 ? "No measurement has checked it yet"
            : string.Create(CultureInfo.InvariantCulture, $"{Count(validity.Checks.Count, "check")}, {validity.Coverage * 100:0} % within two standard uncertainties{(double.IsFinite(validity.BiasMicrometres) ? $", re-probes off by {Tenths(validity.BiasMicrometres)} µm on average" : "")}");
        return $"{(validity.Valid ? "valid" : $"not validated, so no verdict goes beyond \"possible\": {validity.NotValidBecause}")}. {checks}. Drift: {validity.DriftSource}.";
    }

    /// <summary>The address of the page of one feature of one part.</summary>
    public static string Address(FeatureEvidence one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return string.Create(CultureInfo.InvariantCulture, $"evidence/part?serial={Uri.EscapeDataString(one.Serial)}&feature={Uri.EscapeDataString(one.Inspected.Feature.Id)}&begin={one.Inspected.Step.Begin.ToUnixTimeMilliseconds()}");
    }

    /// <summary>The address of the report of a serial.</summary>
    public static string Report(string serial, string format) => $"api/v1/evidence/{Uri.EscapeDataString(serial)}/report?format={format}";

    /// <summary>A count with its noun.</summary>
    public static string Count(int count, string noun) => string.Create(CultureInfo.InvariantCulture, $"{count} {noun}{(count == 1 ? "" : "s")}");

    private static string Short(VerdictLevel level) => level switch
    {
        VerdictLevel.Confirmed => "confirmed as temperature",
        VerdictLevel.ProbablyMainCause => "probably mainly temperature",
        VerdictLevel.Contributed => "where temperature contributed",
        VerdictLevel.Possible => "where it is possible, not supported",
        VerdictLevel.Excluded => "with temperature excluded as main cause",
        _ => "not assessable",
    };

    private static string Of(SlopeFinding finding) => finding switch
    {
        SlopeFinding.ConsistentInSize => "consistent with the prediction in size",
        SlopeFinding.RelatedButSizeWrong => "related, but the size is wrong",
        SlopeFinding.NoRelation => "no relation of the predicted size",
        _ => "too few data to say",
    };
}
