using ClimateGuard.Evidence;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Evidence;

public sealed class GroupAnalysisTests
{
    [Fact]
    public void Parts_that_follow_their_prediction_give_a_slope_of_one_and_a_clean_control()
    {
        var group = Of(slope: 1, noise: 2, predicted: episode => 30 * Math.Sin(2.3 * episode));

        Assert.Equal(SlopeFinding.ConsistentInSize, group.Slope!.Finding);
        Assert.True(group.RSquared > 0.9);
        Assert.Equal(ControlFinding.Clean, group.Future!.Finding);
        Assert.True(group.Permutation!.PValue < 0.05);
        Assert.True(group.Confirms);
        Assert.Null(group.CannotBeToldFrom);
        Assert.Equal(20, group.Signs!.Used + group.Points.Count(point => Math.Abs(point.Predicted) < group.Points.Min(one => one.UPredicted)));
    }

    [Fact]
    public void A_feature_that_cannot_react_shows_no_slope_and_confirms_nothing()
    {
        // Twenty cells without any relation: a 95 % interval may miss 0 in one of twenty; three of them would be a wrong interval.
        var missed = Enumerable.Range(0, 20).Count(seed => !Of(slope: 0, noise: 5, predicted: episode => 30 * Math.Sin(2.3 * episode), seed: seed).Slope!.Interval.Contains(0));
        Assert.InRange(missed, 0, 3);
    }

    [Fact]
    public void Temperature_that_goes_with_the_shift_cannot_be_told_from_it()
    {
        var group = Of(slope: 1, noise: 2, predicted: episode => episode % 2 == 0 ? 20 : -20);

        Assert.Equal("shift", group.CannotBeToldFrom);
        Assert.True(group.Confounders.Single(confounder => confounder.Name == "shift").CorrelationRatio > 0.9);
    }

    [Fact]
    public void One_day_on_which_the_chiller_failed_does_not_tell_temperature_from_the_shift()
    {
        var group = Of(slope: 1, noise: 2, predicted: episode => episode == 4 ? -200 : episode % 2 == 0 ? 20 : -20);

        Assert.StartsWith("shift: 1 of 10 episodes", group.CannotBeToldFrom, StringComparison.Ordinal);
        Assert.True(group.Confounders.Single(confounder => confounder.Name == "shift") is { CorrelationRatio: < 0.5, WithoutFew: > 0.9, LeftOut: 1 });
    }

    [Fact]
    public void An_operator_who_clamps_longer_is_found_beside_the_temperature()
    {
        var group = Of(slope: 1, noise: 1, predicted: episode => 10 * Math.Sin(2.3 * episode), operatorB: 6);

        var difference = Assert.Single(group.Differences, one => one.Name == "operator");
        Assert.Equal(6, difference.MeanRest["B"], 1.0);
        Assert.Equal(-6, difference.MeanRest["A"], 1.0);
    }

    [Fact]
    public void Two_parts_make_no_line_and_that_is_said_by_having_none()
    {
        var group = GroupAnalysis.Of("D-1", "bore", [.. Points(1, 1, episode => episode, 1, 0).Take(2)], true, 60);

        Assert.Null(group.Slope);
        Assert.Null(group.Future);
        Assert.Null(group.Capability);
    }

    private static GroupEvidence Of(double slope, double noise, Func<int, double> predicted, int seed = 1, double operatorB = 0) =>
        GroupAnalysis.Of("D-1", "bore", [.. Points(slope, noise, predicted, seed, operatorB)], true, 60);

    // Ten episodes of two parts, alternately in the early and the late shift.
    private static IEnumerable<GroupPoint> Points(double slope, double noise, Func<int, double> predicted, int seed, double operatorB)
    {
        var chance = new Random(seed);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
        for (var part = 0; part < 20; part++)
        {
            var episode = part / 2;
            var worker = part % 2 == 0 ? "A" : "B";
            yield return new GroupPoint
            {
                Serial = $"S{part}", Machine = "M1", At = Some.Morning.AddHours(8 * episode).AddMinutes(part), Episode = $"M1 {episode}", Predicted = predicted(episode), UPredicted = 1,
                Measured = (slope * predicted(episode)) + (noise * Normal()) + (worker == "B" ? operatorB : 0), UMeasured = Math.Max(noise, 0.1), NaiveAirKelvins = Normal(), Exceeded = Math.Abs(predicted(episode)) > 18,
                OutOfTolerance = false, Labels = new Dictionary<string, string>(StringComparer.Ordinal) { ["shift"] = episode % 2 == 0 ? "early" : "late", ["operator"] = worker },
            };
        }
    }
}
