using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>The requirements of <see cref="SamplingCase"/>, one by one.</summary>
internal static class SamplingRules
{
    private const double OneSided = 1.645;
    private const double Level = 0.05;

    public static IReadOnlyList<SamplingRequirement> Of(SamplingCase given, Feature feature, IReadOnlyList<SamplingPart> parts)
    {
        var margin = SamplingCase.MarginShare * feature.ToleranceMillimetres * 1000;
        var found = new List<SamplingRequirement> { OutOfTolerance(given, parts), Stable(given), BandSeen(given), OfPrediction(given, parts, margin), OfAir(given, parts, margin) };
        // Of a position or coaxiality the deviation has no sign, so the share out of tolerance stands alone.
        if (feature is not (PositionFeature or CoaxialityFeature)) found.Add(Capable(given, feature, parts));
        return found;
    }

    private static SamplingRequirement OutOfTolerance(SamplingCase given, IReadOnlyList<SamplingPart> parts)
    {
        const string name = "at most 1 % out of tolerance";
        var bad = parts.Count(part => part.OutOfTolerance);
        var n = Math.Max(bad, (int)Math.Floor(given.EffectiveParts));
        var interval = ProportionInterval.ClopperPearson(bad, Math.Max(1, n), 0.90);
        var finding = FormattableString.Invariant($"{bad} of {parts.Count} parts out of tolerance; the {parts.Count} are worth {n} independent ones, so with 95 % confidence at most {interval.High:P1}");
        if (interval.High <= SamplingCase.LargestShareOut) return new(name, RequirementState.Met, finding);
        if (interval.Low > SamplingCase.LargestShareOut) return new(name, RequirementState.Against, finding, "find and remove the cause; then count anew");
        var needed = SampleSize.ForLargestShare(SamplingCase.LargestShareOut, bad);
        return new(name, RequirementState.NotYet, finding, $"{Inspect(given, needed - n)} without a further one out of tolerance");
    }

    private static SamplingRequirement Stable(SamplingCase given)
    {
        const string name = "stable over the shifts";
        if (given.Chart is not { } chart || given.Episodes < 3)
        {
            return new(name, RequirementState.NotYet, $"{Shifts(given.Episodes)}: no chart can be drawn", $"{SamplingCase.FewestEpisodes - given.Episodes} more shifts");
        }

        var trend = Trend.MannKendall(given.ShiftMeans);
        var beyond = chart.Beyond.Count;
        var finding = FormattableString.Invariant(
            $"{given.Episodes} shifts, mean {chart.Mean:0.0} µm, limits {chart.Limits.Low:0.0} to {chart.Limits.High:0.0} µm: {beyond} beyond; {(trend.PValue < Level ? "a steady " + (trend.Score > 0 ? "rise" : "fall") : "no steady rise or fall")} (Mann–Kendall p = {trend.PValue:0.###})");
        if (given.Episodes < SamplingCase.FewestEpisodes)
        {
            return new(name, RequirementState.NotYet, finding, $"{SamplingCase.FewestEpisodes - given.Episodes} more shifts before the limits can be trusted");
        }

        return beyond == 0 && trend.PValue >= Level
            ? new(name, RequirementState.Met, finding)
            : new(name, RequirementState.Against, finding, "explain what lies beyond the limits or moves, remove it, and begin the chart anew");
    }

    private static SamplingRequirement BandSeen(SamplingCase given)
    {
        const string name = "the temperature band was seen";
        var (low, high) = (Math.Max(given.Seen.Low, given.Band.Low), Math.Min(given.Seen.High, given.Band.High));
        var share = given.Band.HalfWidth > 0 ? Math.Max(0, high - low) / (2 * given.Band.HalfWidth) : 0;
        var finding = FormattableString.Invariant(
            $"parts were cut at predicted effects of {given.Seen.Low:0.0} to {given.Seen.High:0.0} µm; a permit allows {given.Band.Low:0.0} to {given.Band.High:0.0} µm, of which {share:P0} was seen");
        return share >= SamplingCase.LeastBandSeen
            ? new(name, RequirementState.Met, finding)
            : new(name, RequirementState.NotYet, finding, "parts cut warmer or cooler within the budget; more parts at the same temperature do not help");
    }

    private static SamplingRequirement OfPrediction(SamplingCase given, IReadOnlyList<SamplingPart> parts, double margin)
    {
        const string name = "independent of the predicted thermal effect";
        var effect = BandEffect.Of(parts, [.. parts.Select(part => part.PredictedMicrometres)], [.. parts.Select(part => part.ThermalMicrometres)], given.Band.HalfWidth);
        return Independent(given, name, effect, margin, "from the middle of the band to its edge");
    }

    private static SamplingRequirement OfAir(SamplingCase given, IReadOnlyList<SamplingPart> parts, double margin)
    {
        const string name = "independent of the air";
        SamplingPart[] known = [.. parts.Where(part => double.IsFinite(part.AirKelvins))];
        if (known.Length < parts.Count)
        {
            return new(name, RequirementState.NotYet, $"the air is not known for {parts.Count - known.Length} of {parts.Count} parts", "readings of the air during the cuts");
        }

        double[] air = [.. known.Select(part => part.AirKelvins)];
        var range = air.Max() - air.Min();
        var effect = BandEffect.Of(known, air, [.. known.Select(part => part.DeviationMicrometres)], range / 2);
        return Independent(given, name, effect, margin, FormattableString.Invariant($"over half of the {range:0.00} K of air that were seen"));
    }

    private static SamplingRequirement Independent(SamplingCase given, string name, BandEffect? effect, double margin, string over)
    {
        if (effect is null)
        {
            return new(name, RequirementState.NotYet, "too few parts or shifts, or all at one temperature: no line can be fitted", "parts of three shifts or more at different temperatures");
        }

        var finding = FormattableString.Invariant(
            $"the deviation moves by {effect.MoveMicrometres:0.0} µm (90 %: {effect.Interval.Low:0.0} to {effect.Interval.High:0.0}) {over}; {margin:0.0} µm, a tenth of the tolerance, must be excluded");
        return effect.Within(margin) switch
        {
            RequirementState.Met => new(name, RequirementState.Met, finding),
            RequirementState.Against => new(name, RequirementState.Against, finding, "temperature moves this feature; more parts do not change that, a smaller budget or a steadier cell does"),
            _ => new(name, RequirementState.NotYet, finding, effect.PartsFor(margin) is { } needed
                ? $"{Inspect(given, needed - (int)given.EffectiveParts)} with the same spread of temperatures, to tell on which side of that it lies"
                : "a wider spread of temperatures; at this one it is more parts than can be inspected"),
        };
    }

    private static SamplingRequirement Capable(SamplingCase given, Feature feature, IReadOnlyList<SamplingPart> parts)
    {
        const string name = "capable (Ppk 1.33)";
        double[] values = [.. parts.Select(part => part.DeviationMicrometres)];
        if (given.EffectiveParts < 2 || values.Max() - values.Min() <= 1e-9)
        {
            return new(name, RequirementState.NotYet, "no spread can be judged yet", "parts of two shifts or more");
        }

        var tolerance = feature.ToleranceMillimetres * 1000;
        var found = Capability.OfNormal(values, -tolerance, tolerance, 0.90, given.EffectiveParts);
        var finding = FormattableString.Invariant($"Ppk {found.Ppk:0.00}, with 95 % confidence at least {found.PpkInterval.Low:0.00}; it takes deviations for normal");
        if (found.PpkInterval.Low >= SamplingCase.LeastPpk) return new(name, RequirementState.Met, finding);
        if (found.PpkInterval.High < SamplingCase.LeastPpk) return new(name, RequirementState.Against, finding, "less spread, or a mean nearer to nominal");
        return new(name, RequirementState.NotYet, finding, found.Ppk > SamplingCase.LeastPpk && Enough(found.Ppk) - given.EffectiveParts is < 1e5 and var more
            ? Inspect(given, (int)Math.Ceiling(more)) : "less spread, or a mean nearer to nominal: at this one more parts do not reach it");
    }

    // From Ppk − z·√(1/9n + Ppk²/2n) = 1.33, Bissell's interval with n for n − 1.
    private static double Enough(double ppk) => OneSided * OneSided * ((1.0 / 9) + (ppk * ppk / 2)) / ((ppk - SamplingCase.LeastPpk) * (ppk - SamplingCase.LeastPpk));

    // Parts of one shift are alike: so many more are needed as they are worth less than independent ones.
    private static string Inspect(SamplingCase given, int independent) =>
        FormattableString.Invariant($"about {Math.Max(1, Math.Ceiling(Math.Max(1, independent) * given.Parts / given.EffectiveParts)):0} more parts");

    private static string Shifts(int count) => count == 1 ? "1 shift" : $"{count} shifts";
}
