using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Evidence;

/// <summary>Rungs, limits and words are the rule of the trade that the board report is built on; common practice, no source.</summary>
public sealed class VerdictLadderTests
{
    // The disc of the scripted week: 61 µm measured, 54 µm predicted at its last hole (reference model of the demo week).
    private static readonly VerdictCase Disc = new()
    {
        DeviationMicrometres = 61, UDeviation = 6, PredictedMicrometres = 54, UPredicted = 5, Pattern = PatternMatch.Matches, ModelValidated = true,
    };

    [Fact]
    public void Size_sign_and_pattern_make_it_probably_the_main_cause_and_a_trend_within_the_part_confirms_it()
    {
        Assert.Equal("Temperature probably the main cause", Level(Disc, VerdictLevel.ProbablyMainCause).Wording);
        Assert.Equal("Temperature confirmed", Level(Disc with { IndependentEvidence = ["trend within the part"] }, VerdictLevel.Confirmed).Wording);
    }

    public static TheoryData<string, VerdictCase, VerdictLevel, string> Cases => new()
    {
        { "a calibrated-wrongly probe", Disc with { DeviationMicrometres = 28, PredictedMicrometres = 1.5, UPredicted = 1 }, VerdictLevel.Excluded, "Temperature excluded as main cause" },
        { "too uncertain to exclude", Disc with { DeviationMicrometres = 28, PredictedMicrometres = 1.5, UPredicted = 4 }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "half of it", Disc with { PredictedMicrometres = 30 }, VerdictLevel.Contributed, "Temperature contributed" },
        { "the wrong sign", Disc with { PredictedMicrometres = -54 }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "too large, but not by more than both uncertainties", Disc with { PredictedMicrometres = 90, UPredicted = 12 }, VerdictLevel.Contributed, "Temperature contributed" },
        { "too large, and known well", Disc with { PredictedMicrometres = 90, UPredicted = 1, UDeviation = 3 }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "too large within both uncertainties, but another pattern", Disc with { PredictedMicrometres = 90, UPredicted = 12, Pattern = PatternMatch.Mismatch }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "far too large", Disc with { PredictedMicrometres = 130 }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "another pattern", Disc with { Pattern = PatternMatch.Mismatch }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "no vectors", Disc with { Pattern = PatternMatch.NotChecked }, VerdictLevel.Contributed, "Temperature contributed" },
        { "another program", Disc with { CompetingChanges = ["program 8 instead of 7"] }, VerdictLevel.Contributed, "Temperature contributed" },
        { "only a range", Disc with { DeviationMicrometres = null }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "within its own noise", Disc with { DeviationMicrometres = 6, PredictedMicrometres = 6, UPredicted = 1, UDeviation = 4 }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "an effect within its own uncertainty", Disc with { UPredicted = 34 }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "the same, but the holes show it", Disc with { UPredicted = 34, Signature = "a scale" }, VerdictLevel.Contributed, "Temperature contributed" },
        { "the same with a trend, which is no more", Disc with { UPredicted = 34, Signature = "a scale", IndependentEvidence = ["trend"] }, VerdictLevel.Contributed, "Temperature contributed" },
        { "the same, confounded", Disc with { UPredicted = 34, Signature = "a scale", Confounder = "shift" }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "the holes show it, but the sign is wrong", Disc with { PredictedMicrometres = -54, UPredicted = 34, Signature = "a scale" }, VerdictLevel.Possible, "Temperature possible; not supported by size or pattern" },
        { "missing readings", Disc with { KnownShare = 0.69 }, VerdictLevel.NotAssessable, "Not assessable: data missing (69 % of the window of the cut has valid data; 70 % are needed)" },
        { "an unknown measurement", Disc with { Missing = ["the compensation mode of the device"] }, VerdictLevel.NotAssessable, "Not assessable: data missing (the compensation mode of the device)" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Each_rung_has_its_requirements_and_its_fixed_words(string what, VerdictCase given, VerdictLevel level, string words)
    {
        var verdict = Level(given, level);
        Assert.True(verdict.Wording == words, what);
        Assert.NotEmpty(verdict.Reasons);
    }

    // Without its own question a wrong sign would pass for a small size: the board must read which of the two it is.
    [Fact]
    public void A_wrong_sign_is_called_that() => Assert.Contains("the sign is wrong", Level(Disc with { PredictedMicrometres = -54 }, VerdictLevel.Possible).Reasons);

    [Fact]
    public void What_the_holes_corrected_the_prediction_by_is_said_before_it() => Assert.Equal("from the trend", Level(Disc with { FromTrend = "from the trend" }, VerdictLevel.ProbablyMainCause).Reasons[0]);

    [Fact]
    public void A_confounded_case_stops_at_possible_however_well_it_fits()
    {
        var verdict = Level(Disc with { Confounder = "shift", IndependentEvidence = ["group test"] }, VerdictLevel.Possible);
        Assert.Contains("cannot be told from shift", verdict.Caps);
    }

    [Theory]
    [InlineData(54.0)]
    [InlineData(1.5)]
    public void Without_a_validated_model_nothing_is_excluded_and_nothing_found(double predicted)
    {
        var verdict = Level(Disc with { PredictedMicrometres = predicted, UPredicted = 1, ModelValidated = false, NotValidBecause = "no check within 90 days" }, VerdictLevel.Possible);
        Assert.Contains("no check within 90 days", Assert.Single(verdict.Caps), StringComparison.Ordinal);
    }

    [Fact]
    public void No_words_below_the_top_claim_a_proof()
    {
        foreach (var level in Enum.GetValues<VerdictLevel>().Where(level => level != VerdictLevel.Confirmed))
        {
            var words = VerdictWords.Of(level, "x");
            Assert.DoesNotContain("prove", words, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("root cause", words, StringComparison.OrdinalIgnoreCase);
        }
    }

    // Tolerance 60 µm, one-sided 95 %: 1.645·u.
    [Theory]
    [InlineData(7, 6, ZeroEffectAnswer.Yes)]
    [InlineData(55, 6, ZeroEffectAnswer.Uncertain)]
    [InlineData(65, 6, ZeroEffectAnswer.Uncertain)]
    [InlineData(70, 6, ZeroEffectAnswer.No)]
    [InlineData(-70, 6, ZeroEffectAnswer.No)]
    public void What_is_left_without_temperature_is_held_against_the_tolerance(double rest, double u, ZeroEffectAnswer answer) =>
        Assert.Equal(answer, ZeroEffect.Of(rest, u, 60).InTolerance);

    private static Verdict Level(VerdictCase given, VerdictLevel level)
    {
        var verdict = VerdictLadder.Judge(given);
        Assert.Equal(level, verdict.Level);
        return verdict;
    }
}
