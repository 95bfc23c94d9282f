using ClimateGuard.Edges.Files;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Board;

/// <summary>The sections of one feature.</summary>
internal static class FeatureSections
{
    public static IEnumerable<Block> Of(BoardData data, FeatureEvidence one) =>
        Verdict(one).Concat(Measurement(data, one)).Concat(Prediction(data, one)).Concat(Pattern(one)).Concat(GroupSection.Of(data, one)).Concat(Alternatives(data, one)).Concat(Containment(data, one));

    private static IEnumerable<Block> Verdict(FeatureEvidence one)
    {
        yield return new Heading(2, $"Feature {one.Inspected.Feature.Id} ({one.Inspected.Feature.Kind})");
        yield return new Paragraph($"Level {(int)one.Verdict.Level}. {one.Verdict.Wording}.", Strong: true);
        foreach (var reason in one.Verdict.Reasons)
        {
            yield return new Paragraph(Sentence(reason));
        }

        foreach (var cap in one.Verdict.Caps)
        {
            yield return new Paragraph($"No more than that can be said, as it {cap}.");
        }

        yield return new FigureBlock(Figures.Ruler(one), "Budget ruler: tolerance, deviation at 20 °C, predicted thermal effect in its direction, and what is left without it; whiskers one standard uncertainty.");
    }

    private static IEnumerable<Block> Measurement(BoardData data, FeatureEvidence one)
    {
        yield return new Heading(3, "Measured values and their correction to 20 °C");
        yield return new TableBlock(
            ["hole", "reported", "dx, dy", "u", "measured", "device", "mode", "part, device °C", "line", "counts"],
            [
                .. one.Inspected.All.Select(value => (IReadOnlyList<string>)
                [
                    value.Hole?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "", ReportWords.Um(value.DeviationMicrometres),
                    value.DxMicrometres is null ? "" : $"{ReportWords.Um(value.DxMicrometres)}, {ReportWords.Um(value.DyMicrometres)}", value.UMicrometres is null ? "not stated" : ReportWords.Um(value.UMicrometres),
                    ReportWords.Time(value.MeasuredAt, data.Zone), ReportWords.Or(value.Device), ReportWords.Or(CompensationWords.Word(value.Compensation), ReportWords.NotKnown),
                    $"{ReportWords.Number(value.PartCelsius, "0.00")}, {ReportWords.Number(value.DeviceCelsius, "0.00")}", value.Line > 0 ? FormattableString.Invariant($"{value.Line}") : "",
                    ReportWords.Yes(one.Inspected.Valid.Contains(value)),
                ]),
            ],
            [0.05, 0.08, 0.12, 0.07, 0.2, 0.14, 0.14, 0.1, 0.05, 0.05]);
        var worst = one.AtReference.Worst;
        yield return new Paragraph($"At 20 °C: {ReportWords.PlusMinus(worst.Micrometres, worst.StandardUncertainty)} µm (reported {ReportWords.Um(worst.Reported.Micrometres)}, correction {ReportWords.Um(worst.CorrectionMicrometres)}). {Sentence(worst.Note)}");
        if (worst.Micrometres is null)
        {
            yield return new Paragraph($"Only a range is known: {ReportWords.Um(worst.Range.Low)} to {ReportWords.Um(worst.Range.High)} µm.");
        }

        yield return one.Inspected.Replaced.Count > 0
            ? new Paragraph($"{one.Inspected.Replaced.Count} earlier values of the same holes were measured again; all are kept above.")
            : new Paragraph("No re-measurement came in.");
    }

    private static IEnumerable<Block> Prediction(BoardData data, FeatureEvidence one)
    {
        yield return new Heading(3, "Predicted when it was cut, and computed again now");
        IEnumerable<string> Row(string name, Evidence.Prediction? prediction) => prediction is null
            ? [name, "none was kept", "", "", "", ""]
            : [name, ReportWords.PlusMinus(prediction.MeanMicrometres, prediction.UMicrometres), ReportWords.Um(prediction.WorstMicrometres), ReportWords.Share(prediction.Probability), ReportWords.Time(prediction.At, data.Zone), prediction.Source];
        yield return new TableBlock(
            ["", "mean over the cut", "largest", "P beyond budget", "made", "from"], [[.. Row("frozen at the cut", one.Frozen)], [.. Row("recomputed", one.Recomputed)]],
            [0.16, 0.16, 0.1, 0.14, 0.22, 0.22]);
        if (one is not { Exposure: { } exposure, Cut: { } cut })
        {
            yield return new Paragraph("No stored readings reach this cut.");
            yield break;
        }

        yield return new TableBlock(
            ["exposure of the cut", "value"],
            [
                ["window", $"{ReportWords.Time(exposure.From, data.Zone)} to {ReportWords.Time(exposure.To, data.Zone)}, {ReportWords.Share(exposure.KnownShare)} with valid data"],
                ["mismatch of part and scale, mean; change within the cut", $"{ReportWords.Um(exposure.MeanEps)}; {ReportWords.Um(exposure.EpsChange)} µm/m"],
                ["drift since the datum X, Y, Z; fastest", $"{ReportWords.Um(exposure.MeanDrift.X)}, {ReportWords.Um(exposure.MeanDrift.Y)}, {ReportWords.Um(exposure.MeanDrift.Z)} µm; {ReportWords.Number(exposure.MostDriftRate, "0.00")} µm/min"],
                ["part minus air mean, most; minus scale; minus coolant", $"{ReportWords.Number(exposure.PartMinusAir, "0.00")}, {ReportWords.Number(exposure.MostPartMinusAir, "0.00")}; {ReportWords.Number(exposure.PartMinusScale, "0.00")}; {ReportWords.Number(exposure.PartMinusCoolant, "0.00")} K"],
                ["time in the enclosure before, in time constants; spindle load", $"{ReportWords.Number(exposure.SoakRatio, "0.0")}; {ReportWords.Number(exposure.SpindleLoad, "0.00")}"],
                ["high minus low air; dose beyond the budget", $"{ReportWords.Number(exposure.GradientKelvins, "0.00")} K; {ReportWords.Um(exposure.DoseMicrometreMinutes)} µm·min"],
                ["naive exposure: mean air − 20", $"{ReportWords.Number(exposure.NaiveAirKelvins, "0.00")} K"],
            ],
            [0.45, 0.55]);
        if (Figures.Temperatures(cut, one.Inspected.Feature.Id, data.Zone) is { } drawing)
        {
            yield return new FigureBlock(drawing, "Temperatures from an hour before the cut to its end; gaps are gaps. Air and coolant from sensors, part and scale from the model that follows them.");
        }
    }

    private static IEnumerable<Block> Pattern(FeatureEvidence one)
    {
        if (one.Pattern is not { } pattern)
        {
            if (one.Inspected.Feature is PositionFeature)
            {
                yield return new Paragraph("No hole vectors came in, or fewer than four: the pattern could not be taken apart.");
            }

            yield break;
        }

        yield return new Heading(3, "The pattern taken apart");
        yield return new TableBlock(
            ["", "scale, µm/m", "rotation, µrad", "translation X, µm", "translation Y, µm", "residual rms, µm"], [Fit("measured", pattern.Fit), Fit("predicted", pattern.PredictedFit)], [0.14, 0.18, 0.18, 0.18, 0.18, 0.14]);
        yield return new Paragraph($"The pattern {(pattern.Match == PatternMatch.Matches ? "is that of the prediction" : "is not that of the prediction")}: {pattern.Why}. The scale stands for {ReportWords.PlusMinus(pattern.EquivalentKelvins, "0.00")} K of part against scale.");
        if (one.Trend is { } trend)
        {
            yield return new Paragraph($"Beyond their mean scale, {trend.Words}. With that the effect towards the deviation is {ReportWords.PlusMinus(one.Case.PredictedMicrometres, trend.UMicrometres)} µm, which the verdict weighs; the prediction itself stays as it was.");
        }

        foreach (var sign in pattern.Signs)
        {
            yield return new Paragraph(sign.Meaning.Component == PatternComponent.ResidualOnly
                ? $"Nothing stands out of the scatter: first {sign.Meaning.SuspectFirst}; then {sign.Meaning.Then}."
                : $"{ReportWords.Component(sign.Meaning.Component)} stands out ({ReportWords.P(sign.PValue)}): first {sign.Meaning.SuspectFirst}; then {sign.Meaning.Then}.");
        }

        yield return new FigureBlock(PatternFigures.Vectors(pattern), "Each hole at its place, deviations magnified.");
        yield return new FigureBlock(PatternFigures.InOrder(pattern), $"Radial deviation in the order of cutting, dots measured, line predicted. {(pattern.TimesRecorded ? "Times of the holes as recorded." : "Times of the holes not recorded: spread evenly over the cut.")}");
        if (pattern.WithinPart is { } within)
        {
            yield return new Paragraph(FormattableString.Invariant(
                $"Within the part, measured on predicted: slope {within.Slope.Value:0.00} ± {within.Slope.StandardError:0.00} (95 %: {within.Interval.Low:0.00} to {within.Interval.High:0.00}), {EvidenceGroupJson.Words.Of(within.Finding)}."));
        }
    }

    private static IEnumerable<Block> Alternatives(BoardData data, FeatureEvidence one)
    {
        yield return new Heading(3, "Other explanations looked at");
        yield return new TableBlock(
            ["explanation", "status"],
            [
                ["another recorded change (program, tool, batch) since the part before", one.Case.CompetingChanges.Count > 0 ? string.Join("; ", one.Case.CompetingChanges) : "none recorded"],
                ["temperature of the measurement", one.AtReference.Correction.IsKnown ? $"taken out: {ReportWords.Um(one.AtReference.Worst.CorrectionMicrometres)} µm" : string.Join("; ", one.AtReference.Correction.Missing)],
                ["shift, operator, tool, program, device or batch instead of temperature", one.Case.Confounder is { } confounder ? $"cannot be told from {confounder}" : "not found, as far as recorded"],
                ["not thermal, as the rest shows", $"rest {ReportWords.PlusMinus(one.AtZeroEffect.RestMicrometres, one.AtZeroEffect.UMicrometres)} µm; in tolerance without temperature: {one.AtZeroEffect.Word}"],
                ["independent evidence", one.Case.IndependentEvidence.Count > 0 ? string.Join("; ", one.Case.IndependentEvidence) : "none"],
            ],
            [0.4, 0.6]);
    }

    private static IEnumerable<Block> Containment(BoardData data, FeatureEvidence one)
    {
        yield return new Heading(3, "Other serials with the same exposure");
        yield return one.Containment.Count == 0
            ? new Paragraph(one.Inspected.InTolerance ? "Not listed: this feature is in tolerance and its effect within the budget." : "No other serial of this part number had the same exposure in the data.")
            : new TableBlock(
                ["serial", "machine", "cut", "predicted, µm", "inspected", "risk of being out"],
                [
                    .. one.Containment.Select(part => (IReadOnlyList<string>)
                    [
                        part.Serial, part.Machine, ReportWords.Time(part.CutAt, data.Zone), ReportWords.Um(part.PredictedMicrometres),
                        part.Inspected ? $"yes, {(part.InTolerance == true ? "in" : "out of")} tolerance" : "no", part.Inspected ? "" : ReportWords.Share(part.ResidualRisk),
                    ]),
                ],
                [0.22, 0.1, 0.26, 0.14, 0.16, 0.12]);
    }

    private static string[] Fit(string name, SimilarityFit fit) =>
    [
        name, ReportWords.PlusMinus(fit.ScaleMicrometresPerMetre), ReportWords.PlusMinus(fit.RotationMicroradians), ReportWords.PlusMinus(fit.TranslationX), ReportWords.PlusMinus(fit.TranslationY),
        ReportWords.Um(fit.ResidualRms),
    ];

    private static string Sentence(string text) => text.Length == 0 ? "" : char.ToUpperInvariant(text[0]) + text[1..].TrimEnd('.') + ".";
}
