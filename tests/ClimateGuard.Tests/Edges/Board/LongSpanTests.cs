using ClimateGuard.Edges.Board;
using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Edges.Board;

/// <summary>Over a long span temperatures are followed without an outlook each minute: what a part was exposed to must not change by that.</summary>
public sealed class LongSpanTests
{
    [Fact]
    public async Task Following_temperatures_alone_gives_the_same_exposures_and_the_same_verdict_and_a_prediction_from_before_the_cut()
    {
        using var disc = new WarmDisc();
        var whole = Assert.Single((await disc.RunAsync(TestContext.Current.CancellationToken)).Answer.Features);
        var data = await disc.RunAsync(TestContext.Current.CancellationToken, outlooksUpTo: TimeSpan.FromHours(1));
        var followed = Assert.Single(data.Answer.Features);

        Assert.True(data.OnlyExposures);
        Assert.Equal(Cut(whole), Cut(followed));
        Assert.InRange(Cut(followed).Length, 30, 40);
        Assert.Equal(whole.Recomputed, followed.Recomputed);
        Assert.Equal(whole.Verdict.Level, followed.Verdict.Level);
        Assert.True(followed.Frozen!.At <= followed.Inspected.Step.Cuts[0].Start);
        Assert.Equal(whole.Frozen!.MeanMicrometres, followed.Frozen.MeanMicrometres, 0.5);
        Assert.Equal(whole.Frozen.Probability, followed.Frozen.Probability, 0.1);
    }

    private static (DateTimeOffset Time, double Eps, AxisDrift Drift)[] Cut(FeatureEvidence one) =>
        [.. one.Cut!.Between(one.Cut.From, one.Cut.To).Select(sample => (sample.Time, sample.EpsMicrometresPerMetre, sample.Drift))];
}
