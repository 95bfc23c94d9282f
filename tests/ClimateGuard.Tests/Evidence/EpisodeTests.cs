using ClimateGuard.Evidence;
using ClimateGuard.Tests.Published;

namespace ClimateGuard.Tests.Evidence;

public sealed class EpisodeTests
{
    private static readonly double[] Outcomes = [5.1, 1.0, 2.2, 4.7, 0.4, 1.6, 3.9, 2.8, 1.1, 0.7];

    // domain.md F.7 [C]
    [Theory]
    [InlineData(10, 3, 0.0083)] // 1/120
    [InlineData(15, 3, 0.0022)] // 1/455
    [InlineData(20, 4, 0.0002)] // 1/4845
    public void The_smallest_reachable_p_is_one_over_the_arrangements(int shifts, int excursions, double expected)
    {
        var result = EpisodePermutation.Exchange([.. Enumerable.Range(0, shifts).Select(i => new Episode(i < excursions ? 1 : 0, [i < excursions ? 9.0 + i : i % 3]))]);
        Within.Absolute(expected, result.SmallestReachableP, 5e-5);
        Assert.Equal(result.SmallestReachableP, result.PValue);
        Assert.True(result is { Exact: true, Decidable: true });
    }

    [Fact]
    public void An_exchange_counts_every_arrangement()
    {
        // R 4.2.2: combn(10, 3), difference of means at or above the one seen.
        var found = EpisodePermutation.Exchange(Series(1, 0, 0, 1, 0, 0, 0, 0, 0, 1));
        Within.Absolute(1.64285714285714, found.Slope, 1e-13);
        Within.Absolute(0.1, found.PValue, 1e-13);
        var best = EpisodePermutation.Exchange(Series(1, 0, 0, 1, 0, 0, 1, 0, 0, 0), Alternative.TwoSided);
        Within.Absolute(3.16666666666667, best.Slope, 1e-13);
        Within.Absolute(1.0 / 120, best.PValue, 1e-13);
    }

    [Fact]
    public void A_circular_shift_has_as_many_arrangements_as_episodes()
    {
        var found = EpisodePermutation.CircularShift(Series(1, 0, 0, 1, 0, 0, 1, 0, 0, 0));
        Within.Absolute(0.1, found.PValue, 1e-15); // R: the ten shifts one by one
        Assert.False(found.Decidable);
        Assert.Equal("cannot be decided with this many episodes", found.Caveat);
    }

    [Fact]
    public void Episodes_are_exchanged_only_within_their_stratum()
    {
        Episode[] episodes =
        [
            new(1, [10, 11], "M1"), new(0, [2, 3], "M1"), new(0, [1], "M1"), new(1, [110], "M2"), new(0, [102, 101], "M2"),
        ];
        var found = EpisodePermutation.Exchange(episodes);
        Assert.Equal(6, found.Arrangements); // 3·2
        Within.Absolute(1.0 / 6, found.PValue, 1e-14);
        Assert.False(found.Decidable);
    }

    [Fact]
    public void Many_episodes_are_drawn_with_a_seed()
    {
        Episode[] episodes = [.. Enumerable.Range(0, 60).Select(i => new Episode(i % 4 == 0 ? 1 : 0, [(i % 4 == 0 ? 1.5 : 0) + ((i * 7) % 11 / 11.0)]))];
        var first = EpisodePermutation.Exchange(episodes, seed: 3);
        Assert.False(first.Exact);
        Assert.Equal(first, EpisodePermutation.Exchange(episodes, seed: 3));
        Within.Absolute(1.0 / 10_000, first.PValue, 1e-12);
    }

    [Fact]
    public void Equal_exposures_decide_nothing()
    {
        var found = EpisodePermutation.Exchange([new(1, [1]), new(1, [2]), new(1, [3])]);
        Assert.Equal((1, 1, false), (found.PValue, found.Arrangements, found.Decidable));
    }

    [Theory]
    [InlineData(2, LagSuggestion.AsPhysicsExpects)]
    [InlineData(0, LagSuggestion.AnotherPathAtOnce)]
    [InlineData(8, LagSuggestion.FollowsTheClock)]
    [InlineData(5, LagSuggestion.OtherLag)]
    public void The_best_lag_tells_which_path(int trueLag, LagSuggestion suggestion)
    {
        var noise = new ClimateGuard.Thermal.GaussianStream(11);
        double[] exposure = [.. Enumerable.Range(0, 120).Select(_ => noise.Next())];
        double?[] outcome = [.. Enumerable.Range(0, 120).Select(i => i < trueLag || i % 9 == 4 ? null : (double?)(exposure[i - trueLag] + (0.3 * noise.Next())))];
        var scan = LagScan.Scan(exposure, outcome, TimeSpan.FromHours(3), 10, TimeSpan.FromHours(6));
        Assert.Equal(TimeSpan.FromHours(3 * trueLag), scan.Best.Lag);
        Assert.Equal(suggestion, scan.Suggestion);
        Assert.Equal(10, scan.Lags.Count);
    }

    [Fact]
    public void Noise_has_no_lag()
    {
        var noise = new ClimateGuard.Thermal.GaussianStream(5);
        double[] exposure = [.. Enumerable.Range(0, 80).Select(_ => noise.Next())];
        double?[] outcome = [.. Enumerable.Range(0, 80).Select(_ => (double?)noise.Next())];
        Assert.Equal(LagSuggestion.NothingStandsOut, LagScan.Scan(exposure, outcome, TimeSpan.FromHours(8), 8, TimeSpan.FromHours(8)).Suggestion);
    }

    [Theory]
    [InlineData(0.05, 0.1, ControlFinding.Clean)]
    [InlineData(0.5, 0.1, ControlFinding.Reacts)]
    [InlineData(0.4, 0.5, ControlFinding.TooFewToTell)]
    public void A_control_must_not_react_and_must_be_able_to(double slope, double error, ControlFinding finding) =>
        Assert.Equal(finding, NegativeControl.Of(new Estimate(slope, error, 20)).Finding);

    [Fact]
    public void The_exposure_of_tomorrow_stands_beside_the_parts_of_today()
    {
        var shifted = NegativeControl.WithFutureExposure([new(1, [10]), new(2, [20]), new(3, [30])]);
        Assert.Equal([2.0, 3.0], shifted.Select(episode => episode.Exposure));
        Assert.Equal([10.0, 20.0], shifted.Select(episode => episode.Outcomes[0]));
    }

    [Fact]
    public void More_exposure_goes_with_more_deviation_third_by_third()
    {
        double[] exposure = [1, 2, 3, 4, 5, 6, 7, 8, 9], outcome = [1, 2, 1, 4, 5, 4, 8, 9, 8];
        var found = DoseGradient.ByThirds(exposure, outcome);
        Assert.True(found.Steady);
        Assert.Equal([2.0, 5.0, 8.0], found.Thirds.Select(third => third.MeanExposure));
        Within.Absolute(7, found.HighestMinusLowest!.Difference, 1e-14); // 25/3 − 4/3
        Assert.False(DoseGradient.ByThirds(exposure, [1, 2, 1, 9, 8, 9, 4, 5, 4]).Steady);
    }

    // domain.md F.5 [C]: at twice the ratio four times as many
    [Theory]
    [InlineData(1.5, 0.25, 36)]
    [InlineData(1.5, 0.15, 100)]
    [InlineData(1.5, 0.10, 225)]
    [InlineData(3.0, 0.25, 4 * 36)]
    [InlineData(3.0, 0.15, 4 * 100)]
    [InlineData(3.0, 0.10, 4 * 225)]
    public void Values_needed_for_a_slope(double ratio, double error, int expected) => Assert.Equal(expected, SampleSize.ForSlope(ratio, 1, error));

    // domain.md F.6 [C]: 80 % power, one-sided 5 %, a well-known base rate
    [Theory]
    [InlineData(0.01, 0.03, 301)]
    [InlineData(0.01, 0.05, 110)]
    [InlineData(0.01, 0.10, 29)]
    [InlineData(0.02, 0.06, 131)]
    [InlineData(0.03, 0.10, 66)]
    public void Exposed_parts_needed_to_see_a_raised_rate(double baseRate, double raised, int expected) => // R: qbinom(.95, n, p0), pbinom
        Assert.Equal(expected, SampleSize.ForRaisedRate(baseRate, raised));

    [Fact]
    public void Dependent_values_are_worth_fewer()
    {
        Within.Absolute(10, EffectiveSampleSize.OfEpisodes(100, 10, 1), 1e-12); // an episode is one observation
        Within.Absolute(100, EffectiveSampleSize.OfEpisodes(100, 10, 0), 1e-12);
        double[] slow = [.. Enumerable.Range(0, 200).Select(i => Math.Sin(i / 15.0))];
        Assert.InRange(EffectiveSampleSize.OfSeries(slow), 1, 5);
        // Deviations −1.5 −0.5 0.5 1.5: r₁ = (0.75 − 0.25 + 0.75)/5 = 0.25, so 4·0.75/1.25
        Within.Absolute(2.4, EffectiveSampleSize.OfSeries([1, 2, 3, 4]), 1e-13);
        Assert.Equal(6, EffectiveSampleSize.OfSeries([1, -1, 1, -1, 1, -1])); // not more than there are
    }

    [Fact]
    public void A_temperature_that_follows_the_shift_cannot_be_told_from_it()
    {
        string[] shift = ["early", "early", "early", "late", "late", "late"];
        // Between: 3·(1 − 2)² + 3·(3 − 2)² = 6; within: 4·0.1² = 0.04; η² = 6/6.04
        var follows = Confounding.Of([0.9, 1.0, 1.1, 2.9, 3.0, 3.1], shift);
        Within.Absolute(Math.Sqrt(6 / 6.04), follows.CorrelationRatio, 1e-13);
        Assert.True(follows.CannotBeSeparated);
        Assert.False(Confounding.Of([1, 2, 3, 1, 2, 3], shift).CannotBeSeparated);
        Assert.False(Confounding.Of([1, 2, 3, 1, 2, 3], ["one", "one", "one", "one", "one", "one"]).CannotBeSeparated);
    }

    // Ten shifts in two groups about 1 and 3, each 0.1 off at most: within 2·(2·0.1² + 2·0.05²) = 0.05, between 10·1² = 10; ε² = 1 − (0.05/10.05)·9/8, by hand.
    private static readonly double[] Ten = [0.9, 0.95, 1.0, 1.05, 1.1, 2.9, 2.95, 3.0, 3.05, 3.1];
    private static readonly string[] TenShifts = ["early", "early", "early", "early", "early", "late", "late", "late", "late", "late"];

    [Fact]
    public void One_episode_does_not_tell_temperature_from_the_shift()
    {
        var found = EpisodeConfounding.Of([.. Ten, -6.0], [.. TenShifts, "late"], Numbers(11));

        Assert.True(found.Ratio < 0.5);
        Within.Absolute(Math.Sqrt(1 - (0.05 / 10.05 * 9 / 8)), found.RatioWithoutFew, 1e-12);
        Assert.Equal(1, found.LeftOut);
        Assert.True(found.CannotBeSeparated);
    }

    [Fact]
    public void Two_episodes_of_twelve_that_go_against_the_shift_tell_them_apart()
    {
        Assert.False(EpisodeConfounding.Of([.. Ten, -6.0, -5.0], [.. TenShifts, "late", "late"], Numbers(12)).CannotBeSeparated);
        // Two parts of one shift are one episode.
        Assert.True(EpisodeConfounding.Of([.. Ten, -6.0, -5.0], [.. TenShifts, "late", "late"], [.. Numbers(11), "11"]).CannotBeSeparated);
    }

    [Fact]
    public void Of_fewer_than_ten_episodes_each_counts()
    {
        var found = EpisodeConfounding.Of([.. Ten.Skip(2), -6.0], [.. TenShifts.Skip(2), "late"], Numbers(9));
        Assert.Equal((0, found.Ratio), (found.LeftOut, found.RatioWithoutFew));
        Assert.False(found.CannotBeSeparated);
    }

    private static string[] Numbers(int count) => [.. Enumerable.Range(1, count).Select(i => FormattableString.Invariant($"{i}"))];

    [Fact]
    public void One_episode_in_twenty_does_not_tell_temperature_from_the_shift_but_more_do()
    {
        // A hundred shifts in turn at 0 and −1.5; on some the chiller failed, early or late.
        bool Confounded(int failed)
        {
            double[] exposure = [.. Enumerable.Range(0, 100).Select(i => i < failed ? 15 : (i % 2 * -1.5) + (0.01 * (i % 7)))];
            return EpisodeConfounding.Of(exposure, [.. Enumerable.Range(0, 100).Select(i => i % 2 == 0 ? "early" : "late")], [.. Enumerable.Range(0, 100).Select(i => $"{i}")]).CannotBeSeparated;
        }

        Assert.True(Confounded(0));
        Assert.True(Confounded(1));
        Assert.True(Confounded(5));
        Assert.False(Confounded(6));
    }

    [Fact]
    public void One_label_for_all_or_one_for_each_part_stays_what_it_is()
    {
        string[] episode = ["1", "2", "3", "4", "5"];
        Assert.False(EpisodeConfounding.Of([1, 2, 3, 4, 5], ["one", "one", "one", "one", "one"], episode).CannotBeSeparated);
        Assert.True(EpisodeConfounding.Of([1, 2, 3, 4, 5], ["a", "b", "c", "d", "e"], episode).CannotBeSeparated);
        Assert.False(EpisodeConfounding.Of([2, 2, 2, 2, 2], ["a", "a", "b", "b", "b"], episode).CannotBeSeparated);
    }

    private static Episode[] Series(params double[] exposures) => [.. exposures.Select((exposure, i) => new Episode(exposure, [Outcomes[i]]))];
}
