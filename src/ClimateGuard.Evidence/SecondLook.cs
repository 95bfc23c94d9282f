using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>One inspected feature in the light of the others: validity, confounders, other changes, independent evidence, containment, verdict.</summary>
internal static class SecondLook
{
    private const int MostContained = 200;

    public static FeatureEvidence At(
        EvidenceQuestion question, FeatureEvidence one, GroupEvidence? group, EvidenceIndex all, CutTable cuts, ResidualScatter spread, ScaleSignature signature)
    {
        var step = one.Inspected.Step;
        var machine = question.Cell.FindMachine(step.Machine);
        var validity = machine is null ? null : all.ValidityOf(machine, step.Begin);
        var own = PointOf(one, group);
        var trend = one.Pattern is { ShowsTrend: true };
        var given = one.Case with
        {
            ModelValidated = validity?.Valid ?? false,
            NotValidBecause = validity?.NotValidBecause ?? $"machine {step.Machine} is not in the plant file",
            // A trend inside of one part was made within minutes: neither shift nor operator nor batch changed meanwhile.
            Signature = own is null ? null : signature.Of(one.Pattern, own, group!),
            Confounder = trend ? null : group?.CannotBeToldFrom,
            CompetingChanges = [.. Changes(one, all), .. Differences(own, group)],
            IndependentEvidence = [.. Independent(all, one, group)],
        };
        return one with { Case = given, Verdict = VerdictLadder.Judge(given), Containment = Contained(one, all, cuts, spread) };
    }

    // What is recorded to have changed since the part before of the same feature on the same machine.
    private static string[] Changes(FeatureEvidence one, EvidenceIndex all)
    {
        var step = one.Inspected.Step;
        if (all.Before(one) is not { } before) return [];
        var past = before.Inspected.Step;
        var found = new List<string>();
        void Look(string name, string? was, string? now)
        {
            if (was is not null && now is not null && was != now) found.Add($"{name} {now} instead of {was} since serial {past.Serial}");
        }

        Look("program", past.Program, step.Program);
        Look("tool", Joined(past.Tools), Joined(step.Tools));
        Look("batch", past.Batch, step.Batch);
        return [.. found];
    }

    // A label whose parts differ from the others the way this one deviates, by a fifth of its deviation or more, is another cause that is there.
    private static IEnumerable<string> Differences(GroupPoint? own, GroupEvidence? group)
    {
        if (own is not { } point) yield break;
        foreach (var difference in group!.Differences)
        {
            if (!point.Labels.TryGetValue(difference.Name, out var label) || !difference.MeanRest.TryGetValue(label, out var mean)) continue;
            if (mean * point.Measured > 0 && Math.Abs(mean) >= VerdictLadder.LeastShare * Math.Abs(point.Measured))
                yield return FormattableString.Invariant($"{difference.Name} {label}: its parts differ from the others by {mean:+0.0;-0.0} µm without temperature (p = {difference.PValue:0.####})");
        }
    }

    private static GroupPoint? PointOf(FeatureEvidence one, GroupEvidence? group)
    {
        var at = one.Inspected.Step.Window(one.Inspected.Feature.Id)?.Start ?? one.Inspected.Step.Begin;
        return group?.Points.FirstOrDefault(point => point.Serial == one.Serial && point.At == at);
    }

    private static string? Joined(IReadOnlyList<string> tools) => tools.Count == 0 ? null : string.Join(", ", tools);

    private static IEnumerable<string> Independent(EvidenceIndex all, FeatureEvidence one, GroupEvidence? group)
    {
        // A trend that corrected the prediction does not confirm it as well.
        if (one is { Trend: null, Pattern: { ShowsTrend: true, WithinPart: { } slope } })
            yield return FormattableString.Invariant($"trend within the part: measured on predicted {slope.Slope.Value:0.00} ± {slope.Slope.StandardError:0.00} from hole to hole");
        var step = one.Inspected.Step;
        var drift = DriftDominates(one);
        foreach (var check in all.ChecksOf(step).Where(check => check.Agrees && check.Shows))
        {
            if (check.Kind.StartsWith("reprobe", StringComparison.Ordinal) != drift) continue;
            yield return FormattableString.Invariant(
                $"{check.Kind} at {check.Time.UtcDateTime:yyyy-MM-dd HH:mm}Z: predicted {check.Predicted:0.0} ± {check.UPredicted:0.0}, measured {check.Measured:0.0} ± {check.UMeasured:0.0}");
        }

        if (group is { Confirms: true, Permutation: { } permutation })
            yield return FormattableString.Invariant($"group test: exchange of {group.Episodes} episodes p = {permutation.PValue:0.####}, slope {group.Slope!.Slope.Value:0.00}, control of the next episode clean");
    }

    private static bool DriftDominates(FeatureEvidence one)
    {
        if (one.Exposure is not { } exposure || one.Recomputed is not { } x) return false;
        var mismatch = exposure.MeanEps * FeatureAtReference.Nominal(one.Inspected.Feature) / 1000;
        return Math.Abs(mismatch) < Math.Abs(x.MeanMicrometres) / 2;
    }

    private static ExposedPart[] Contained(FeatureEvidence one, EvidenceIndex all, CutTable cuts, ResidualScatter spread)
    {
        if (one.Recomputed is not { } mine || one.Cut is not { } own) return [];
        var feature = one.Inspected.Feature;
        var budget = feature.Budget.MicrometresFor(feature.ToleranceMillimetres);
        // The list answers "what else?" for a part in question, not for each good one.
        if (one.Inspected.InTolerance && Math.Abs(mine.MeanMicrometres) <= budget) return [];
        var scatter = spread.Of(own.Part.Number, feature);
        var found = new List<ExposedPart>();
        foreach (var other in cuts.OfPart(own.Part.Number).Where(other => other.Step.Serial != own.Step.Serial))
        {
            if (cuts.Predicted(other, feature.Id) is not { } theirs || !ExposedPart.IsAlike(mine.MeanMicrometres, theirs.MeanMicrometres, budget)) continue;
            var inspected = all.Inspected(other, feature.Id);
            found.Add(new ExposedPart(
                other.Step.Serial, other.Step.Machine, other.Step.Window(feature.Id)?.Start ?? other.Step.Begin, theirs.MeanMicrometres, inspected is not null, inspected?.InTolerance,
                inspected is null ? ExposedPart.Risk(theirs.MeanMicrometres, theirs.UMicrometres, scatter, feature) : inspected.InTolerance ? 0 : 1));
        }

        return [.. found.OrderByDescending(part => part.ResidualRisk).ThenBy(part => part.Serial, StringComparer.Ordinal).Take(MostContained)];
    }
}
