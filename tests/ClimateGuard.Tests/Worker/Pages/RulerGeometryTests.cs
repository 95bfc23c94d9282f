using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Ruler;

namespace ClimateGuard.Tests.Worker.Pages;

public sealed class RulerGeometryTests
{
    private static RulerGeometry Of(double drift, double mismatch, double u, double budget, params double[] trail) =>
        RulerGeometry.TryOf(InventedCell.Feature("bore", drift, mismatch, u, budget, 0.5, trail))!;

    [Theory]
    [InlineData(1.2)]
    [InlineData(18)]
    [InlineData(250)]
    public void The_budget_marks_stand_at_the_same_place_in_every_ruler(double budget)
    {
        var ruler = Of(budget / 10, budget / 4, 0.1, budget);
        Assert.Equal(50, ruler.Zero);
        Assert.Equal(32, ruler.BudgetLow, 9);
        Assert.Equal(68, ruler.BudgetHigh, 9);
    }

    [Fact]
    public void The_bar_runs_from_zero_over_mismatch_to_the_effect_and_is_cut_at_the_budget()
    {
        var ruler = Of(drift: 10, mismatch: 20, u: 2, budget: 20);
        Assert.Equal(
            [(RulerPart.Mismatch, 50.0, 18.0, false, false), (RulerPart.Drift, 68.0, 9.0, true, false)],
            ruler.Segments.Select(s => (s.Part, Math.Round(s.X, 6), Math.Round(s.Width, 6), s.Outside, s.Over)));
        Assert.Equal(77, ruler.Tip, 9);
        Assert.Equal(73.4, ruler.WhiskerLow, 9);
        Assert.Equal(80.6, ruler.WhiskerHigh, 9);
    }

    [Fact]
    public void A_negative_effect_runs_to_the_left()
    {
        var ruler = Of(drift: -5, mismatch: -25, u: 0, budget: 20);
        Assert.Equal(
            [(RulerPart.Mismatch, 27.5, 4.5, true), (RulerPart.Mismatch, 32.0, 18.0, false), (RulerPart.Drift, 23.0, 4.5, true)],
            ruler.Segments.Select(s => (s.Part, Math.Round(s.X, 6), Math.Round(s.Width, 6), s.Outside)));
        Assert.Equal(23, ruler.Tip, 9);
    }

    [Fact]
    public void Drift_that_works_against_mismatch_lies_upon_it()
    {
        var ruler = Of(drift: -5, mismatch: 10, u: 0, budget: 20);
        Assert.Equal(
            [(RulerPart.Mismatch, 50.0, 9.0, false), (RulerPart.Drift, 54.5, 4.5, true)],
            ruler.Segments.Select(s => (s.Part, Math.Round(s.X, 6), Math.Round(s.Width, 6), s.Over)));
    }

    [Fact]
    public void Drift_that_crosses_zero_lies_upon_mismatch_only_as_far_as_zero()
    {
        var ruler = Of(drift: -15, mismatch: 5, u: 0, budget: 20);
        Assert.Equal(
            [(RulerPart.Mismatch, 50.0, 4.5, false), (RulerPart.Drift, 50.0, 4.5, true), (RulerPart.Drift, 41.0, 9.0, false)],
            ruler.Segments.Select(s => (s.Part, Math.Round(s.X, 6), Math.Round(s.Width, 6), s.Over)));
    }

    [Fact]
    public void An_effect_beyond_the_scale_is_clipped_and_says_on_which_side()
    {
        Assert.Equal((1, 99.0), (Of(0, 100, 1, 20).TipBeyond, Of(0, 100, 1, 20).Tip));
        Assert.Equal((-1, 1.0), (Of(0, -100, 1, 20).TipBeyond, Of(0, -100, 1, 20).Tip));
        Assert.Equal(0, Of(0, 50, 1, 20).TipBeyond);
        Assert.True(Of(0, 50, 10, 20).WhiskerHighOpen);
        Assert.False(Of(0, 50, 10, 20).WhiskerLowOpen);
    }

    [Theory]
    [InlineData(18, 10, 9)]
    [InlineData(7.5, 5, 7)]
    [InlineData(1.2, 1, 7)]
    [InlineData(2.4, 2, 7)]
    [InlineData(20, 20, 5)]
    public void Ticks_are_round_numbers_around_zero(double budget, double step, int count)
    {
        var ticks = Of(0, 0, 0, budget).Ticks;
        Assert.Equal(count, ticks.Count);
        Assert.Equal(step, ticks[1].Micrometres - ticks[0].Micrometres, 9);
        Assert.Equal(ticks[0].Micrometres, -ticks[^1].Micrometres, 9);
        Assert.Equal("0", ticks[count / 2].Label);
        Assert.StartsWith("−", ticks[0].Label, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(1.01, 2)]
    [InlineData(0.2, 0.2)]
    [InlineData(0.3, 0.5)]
    [InlineData(7, 10)]
    [InlineData(430, 500)]
    public void A_nice_step_is_one_two_or_five_times_a_power_of_ten(double least, double step) =>
        Assert.Equal(step, RulerGeometry.NiceStep(least), 12);

    [Fact]
    public void The_trail_starts_at_the_first_and_ends_at_the_last_value_however_many_there_are()
    {
        var ruler = Of(0, 0, 0, 20, [.. Enumerable.Range(0, 501).Select(i => i * 0.04)]);
        Assert.Equal((50.0, 0.0), (ruler.Trail[0].X, ruler.Trail[0].Share));
        Assert.Equal((68.0, 1.0), (Math.Round(ruler.Trail[^1].X, 9), ruler.Trail[^1].Share));
        Assert.Equal(24, ruler.Trail.Count);
    }

    [Fact]
    public void Without_a_number_there_is_no_ruler()
    {
        var feature = InventedCell.Feature("bore", 1, 2, 1, 20, 0.5);
        Assert.NotNull(RulerGeometry.TryOf(feature));
        Assert.Null(RulerGeometry.TryOf(feature with { EffectMicrometres = double.NaN }));
        Assert.Null(RulerGeometry.TryOf(feature with { UMicrometres = double.PositiveInfinity }));
        Assert.Null(RulerGeometry.TryOf(feature with { BudgetMicrometres = 0 }));
    }

    [Fact]
    public void The_words_for_those_who_cannot_see_it_name_every_part_of_the_figure()
    {
        var outlook = InventedCell.Feature("pattern", 3, 26, 2, 18, 0.9, 29, 31, 36.4);
        var words = RulerWords.Of(outlook, InventedCell.Cell.FindPart("FD-1100")!.Features[0], TimeSpan.FromMinutes(25));
        Assert.Equal(
            "Budget ruler, 24 holes on ⌀900: effect now +29 µm, budget ±18 µm. Probing again removes +3.0 µm; +26 µm stays. "
            + "Uncertainty ±4 µm (k = 2). At the end of the coming cut, 25 min long: +36 µm.",
            words);
    }
}
