using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Evidence;

/// <summary>Sizes: tolerance ±40 µm, budget ±12 µm, so that 4 µm across the band must be excluded.</summary>
public sealed class SamplingCaseTests
{
    private static readonly SizeFeature Bore = new() { Id = "bore", NominalMillimetres = 80, ToleranceMillimetres = 0.040, Budget = BudgetRule.Absolute(12) };

    [Theory]
    [InlineData(0, 299)]
    [InlineData(1, 473)]
    [InlineData(2, 628)]
    public void So_many_parts_exclude_one_percent_with_95_percent_confidence(int bad, int parts)
    {
        // Python 3: the smallest n with sum(comb(n, k)·0.01^k·0.99^(n − k) for k ≤ bad) ≤ 0.05.
        Assert.Equal(parts, SampleSize.ForLargestShare(0.01, bad));
    }

    [Fact]
    public void A_steady_feature_that_saw_its_band_may_be_proposed_and_a_critical_one_is_inspected_all_the_same()
    {
        var parts = Parts(1, shifts: 40, each: 12);
        var found = SamplingCase.Of("D", Bore, PartClass.Standard, parts);

        Assert.All(found.Requirements, one => Assert.True(one.State == RequirementState.Met, $"{one.Name}: {one.Finding}"));
        Assert.Equal(SamplingAnswer.MayBeProposed, found.Answer);
        Assert.Contains("Until they agree, each part is inspected", found.Words, StringComparison.Ordinal);
        var critical = SamplingCase.Of("D", Bore, PartClass.Critical, parts);
        Assert.Equal(SamplingAnswer.StaysInspected, critical.Answer);
        Assert.StartsWith("Stays at 100 %", critical.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Few_good_parts_are_not_yet_evidence_and_the_case_says_how_many_are_missing()
    {
        var found = SamplingCase.Of("D", Bore, PartClass.Standard, Parts(1, shifts: 5, each: 1), leftOut: 2);

        Assert.Equal((SamplingAnswer.NotYet, 5.0, 2), (found.Answer, found.EffectiveParts, found.LeftOut));
        Assert.StartsWith("Not yet. Not shown so far: at most 1 % out of tolerance; stable over the shifts", found.Words, StringComparison.Ordinal);
        Assert.Equal("about 294 more parts without a further one out of tolerance", Of(found, "at most 1 %").StillNeeded);
        Assert.Equal("20 more shifts before the limits can be trusted", Of(found, "stable").StillNeeded);
        Assert.All(found.Requirements.Where(one => one.State == RequirementState.NotYet), one => Assert.NotEmpty(one.StillNeeded));
    }

    [Fact]
    public void One_part_is_a_case_of_not_yet_and_no_error()
    {
        var found = SamplingCase.Of("D", Bore, PartClass.Standard, Parts(1, shifts: 1, each: 1));

        Assert.Equal((SamplingAnswer.NotYet, 1.0), (found.Answer, found.EffectiveParts));
        Assert.DoesNotContain(found.Requirements, one => one.Finding.Contains("NaN", StringComparison.Ordinal));
    }

    [Fact]
    public void A_feature_that_follows_its_prediction_is_refused_however_many_parts_there_are()
    {
        var found = SamplingCase.Of("D", Bore, PartClass.Standard, Parts(1, shifts: 40, each: 12, slope: 1));

        Assert.Equal(SamplingAnswer.No, found.Answer);
        Assert.StartsWith("No. The data speak against: independent of the predicted thermal effect", found.Words, StringComparison.Ordinal);
        Assert.Equal(RequirementState.Against, Of(found, "independent of the predicted").State);
        Assert.Contains("more parts do not change that", Of(found, "independent of the predicted").StillNeeded, StringComparison.Ordinal);
    }

    [Fact]
    public void A_feature_that_follows_the_air_but_not_its_prediction_is_refused()
    {
        var parts = Parts(1, shifts: 40, each: 12).Select(part => part with { DeviationMicrometres = part.DeviationMicrometres + (20 * part.AirKelvins) }).ToArray();

        var found = SamplingCase.Of("D", Bore, PartClass.Standard, parts);

        Assert.Equal((RequirementState.Met, RequirementState.Against), (Of(found, "independent of the predicted").State, Of(found, "independent of the air").State));
    }

    [Fact]
    public void Many_parts_at_one_temperature_show_nothing_about_the_rest_of_the_band()
    {
        var found = SamplingCase.Of("D", Bore, PartClass.Standard, Parts(1, shifts: 40, each: 12, spread: 0.1));

        Assert.Equal((SamplingAnswer.NotYet, RequirementState.NotYet), (found.Answer, Of(found, "the temperature band").State));
        Assert.Contains("more parts at the same temperature do not help", Of(found, "the temperature band").StillNeeded, StringComparison.Ordinal);
    }

    [Fact]
    public void A_drift_over_the_shifts_and_parts_out_of_tolerance_speak_against_it()
    {
        var start = Parts(1, 40, 12)[0].At;
        var worn = Parts(1, shifts: 40, each: 12).Select(part => part with { DeviationMicrometres = part.DeviationMicrometres + ((part.At - start).TotalDays * 0.5) }).ToArray();
        Assert.Equal(RequirementState.Against, Of(SamplingCase.Of("D", Bore, PartClass.Standard, worn), "stable").State);

        var bad = Parts(1, shifts: 40, each: 12).Select((part, i) => part with { OutOfTolerance = i % 20 == 0 }).ToArray();
        Assert.Equal(RequirementState.Against, Of(SamplingCase.Of("D", Bore, PartClass.Standard, bad), "at most 1 %").State);
    }

    [Fact]
    public void Parts_of_a_shift_that_are_alike_count_for_less()
    {
        var alike = Parts(1, shifts: 40, each: 12).GroupBy(part => part.Episode).SelectMany(
            (shift, i) => shift.Select(part => part with { DeviationMicrometres = (i % 5) + (0.01 * part.DeviationMicrometres) })).ToArray();

        var found = SamplingCase.Of("D", Bore, PartClass.Standard, alike);

        Assert.InRange(found.EffectiveParts, 40, 45);
        Assert.Equal(RequirementState.NotYet, Of(found, "at most 1 %").State);
    }

    [Fact]
    public void A_move_as_large_as_the_margin_passes_for_independent_in_about_one_case_of_twenty()
    {
        // Two one-sided tests at 5 %: a true move of 4 µm is at the edge of the hypothesis. "Not significantly different from 0" would pass far more.
        var passed = Enumerable.Range(1, 200).Count(seed =>
            Of(SamplingCase.Of("D", Bore, PartClass.Standard, Parts((ulong)seed, shifts: 30, each: 4, slope: 4.0 / 12)), "independent of the predicted").State == RequirementState.Met);

        Assert.InRange(passed, 1, 20);
    }

    private static SamplingRequirement Of(SamplingCase found, string name) => found.Requirements.Single(one => one.Name.StartsWith(name, StringComparison.Ordinal));

    // Effects of −8 to 8 µm that change from shift to shift and within it, air that is not in step with them, scatter of 4 µm.
    private static SamplingPart[] Parts(ulong seed, int shifts, int each, double slope = 0, double spread = 8)
    {
        var chance = new UniformStream(seed);
        double Normal() => Enumerable.Range(0, 12).Sum(_ => chance.Next()) - 6;
        var monday = new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
        return
        [
            .. Enumerable.Range(0, shifts * each).Select(i =>
            {
                var (shift, place) = (i / each, i % each);
                var predicted = spread * Math.Sin((1.7 * shift) + (0.4 * place));
                var deviation = (slope * predicted) + (4 * Normal());
                return new SamplingPart(
                    monday.AddHours((8 * shift) + (0.5 * place)), "M1", $"shift {shift}", deviation, deviation, predicted, 0.3 * Math.Cos((2.9 * shift) + place), Math.Abs(deviation) > 40);
            }),
        ];
    }
}
