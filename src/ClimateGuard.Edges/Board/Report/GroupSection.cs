using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>What the other parts of the same feature say.</summary>
internal static class GroupSection
{
    public static IEnumerable<Block> Of(BoardData data, FeatureEvidence one)
    {
        yield return new Heading(3, "All inspected parts of this feature");
        if (data.Answer.Groups.FirstOrDefault(group => group.Part == one.Inspected.Worst.Part && group.Feature == one.Inspected.Feature.Id) is not { } group)
        {
            yield return new Paragraph("No part of this feature has both a deviation at 20 °C and a prediction.");
            yield break;
        }

        yield return new TableBlock(["test", "result"], [.. Rows(group)], [0.4, 0.6]);
        if (Figures.Regression(group, one.Serial) is { } drawing)
        {
            yield return new FigureBlock(drawing, "Measured against predicted, one dot a part, this one ringed; grey: equal, coloured: fitted. Whiskers one standard uncertainty.");
        }

        yield return new Paragraph(Plan(group));
    }

    private static IEnumerable<IReadOnlyList<string>> Rows(GroupEvidence group)
    {
        yield return ["parts, independent episodes", FormattableString.Invariant($"{group.Points.Count} parts in {group.Episodes} episodes (machine and shift)")];
        yield return
        [
            "slope of measured on predicted, by episode", group.Slope is not { } slope ? "too few parts or episodes for a line" : FormattableString.Invariant(
                $"{slope.Slope.Value:0.00} (95 %: {slope.Interval.Low:0.00} to {slope.Interval.High:0.00}); against 0 {ReportWords.P(slope.PValueAgainstZero)}, against 1 {ReportWords.P(slope.PValueAgainstOne)}: {EvidenceGroupJson.Words.Of(slope.Finding)}"),
        ];
        if (group.BothErrors is { } both)
        {
            yield return ["the same with errors in both (York)", ReportWords.PlusMinus(both.Slope, "0.00")];
        }

        if (group.Intercept is { } intercept)
        {
            yield return ["what is there without temperature", $"{ReportWords.PlusMinus(intercept)} µm"];
            yield return ["variance explained by the prediction; by the air alone", $"{ReportWords.Share(group.RSquared)}; {ReportWords.Share(group.NaiveRSquared)}{(group.NaiveRSquared >= group.RSquared ? " (a simple chart would have done)" : "")}"];
        }

        foreach (var row in Tests(group).Concat(Besides(group)))
        {
            yield return row;
        }
    }

    private static IEnumerable<IReadOnlyList<string>> Tests(GroupEvidence group)
    {
        if (group.Signs is { } signs)
        {
            yield return ["sign agreement", FormattableString.Invariant($"{signs.Agree} of {signs.Used}, {ReportWords.P(signs.PValue)}")];
        }

        if (group.Permutation is { } permutation)
        {
            yield return ["exchange of episodes", FormattableString.Invariant($"{ReportWords.P(permutation.PValue)}; smallest reachable {permutation.SmallestReachableP:0.####}{(permutation.Caveat.Length > 0 ? ": " + permutation.Caveat : "")}")];
        }

        yield return ["negative control: exposure of the next episode", group.Future is { } future ? EvidenceGroupJson.Words.Of(future.Finding) : "too few episodes"];
        yield return
        [
            "out of tolerance, beyond budget against within", FormattableString.Invariant(
                $"{group.Table.ExposedBad} of {group.Table.Exposed} against {group.Table.OtherBad} of {group.Table.Other}; Fisher mid-p {group.Fisher.MidP:0.####}{(group.Risk is { } risk ? $", risk ratio {risk.Ratio:0.0} ({risk.Interval.Low:0.0} to {risk.Interval.High:0.0})" : "")}"),
        ];
        if (Needed(group.Table) is { } needed)
        {
            yield return ["parts beyond budget needed to see three times the rate of the others", needed];
        }
    }

    /// <summary>How many exposed parts would show a threefold rate, beside how many there are; null where none of the others, or a third of them, is bad.</summary>
    /// <remarks>Three times is what a review would call raised (common practice, no source).</remarks>
    internal static string? Needed(TwoByTwo table) => table.OtherBad == 0 || 3 * table.OtherBad >= table.Other ? null : FormattableString.Invariant(
        $"{SampleSize.ForRaisedRate((double)table.OtherBad / table.Other, 3.0 * table.OtherBad / table.Other)} (80 of 100 times, one-sided 5 %); there are {table.Exposed}. A line on the sizes needs far fewer.");

    private static IEnumerable<IReadOnlyList<string>> Besides(GroupEvidence group)
    {
        foreach (var confounder in group.Confounders)
        {
            yield return [$"correlation of the prediction with {confounder.Name}", FormattableString.Invariant($"{confounder.CorrelationRatio:0.00}{(confounder.LeftOut > 0 ? FormattableString.Invariant($"; {confounder.WithoutFew:0.00} without {confounder.LeftOut} of {group.Episodes} episodes") : "")}{(confounder.CannotBeSeparated ? ": cannot be separated" : "")}")];
        }

        foreach (var difference in group.Differences)
        {
            yield return [$"what is left differs by {difference.Name}", $"{string.Join("; ", difference.MeanRest.OrderBy(one => one.Key, StringComparer.Ordinal).Select(one => FormattableString.Invariant($"{one.Key} {one.Value:+0.0;-0.0} µm")))} against the others, {ReportWords.P(difference.PValue)}"];
        }

        if (group.Capability is { } capability)
        {
            yield return
            [
                "Ppk as measured; without the thermal part", FormattableString.Invariant(
                    $"{capability.AsMeasured.Ppk:0.00} ({capability.AsMeasured.PpkInterval.Low:0.00} to {capability.AsMeasured.PpkInterval.High:0.00}); {capability.WithoutThermalPart.Ppk:0.00} ({capability.WithoutThermalPart.PpkInterval.Low:0.00} to {capability.WithoutThermalPart.PpkInterval.High:0.00}){(capability.NoiseFloorMet ? ", at the floor of the noise correction" : "")}"),
            ];
        }

        if (group.Exploratory is { } looked)
        {
            yield return ["looked at besides, without a claim", FormattableString.Invariant($"{looked.LookedAt} other explanations (air alone, hour, order), {looked.Kept.Count(kept => kept)} kept at q = 0.10 (Benjamini-Hochberg)")];
        }
    }

    private static string Plan(GroupEvidence group) => group switch
    {
        { Slope: null } => "Effectiveness check: at least four parts in two episodes with different exposures are needed before a line can be fitted.",
        { PartsNeeded: > 0 and var needed } => FormattableString.Invariant($"Effectiveness check: {needed} more parts at a spread of exposure like this give the slope a standard error of 0.15; a deliberate step of 0.5 K says it with far fewer."),
        _ => "Effectiveness check: after the corrective action the same line over as many parts; the spread of predicted effects should fall, and Ppk rise towards the value without the thermal part.",
    };
}
