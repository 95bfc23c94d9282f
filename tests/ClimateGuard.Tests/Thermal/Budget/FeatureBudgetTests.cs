using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Budget;

public sealed class FeatureBudgetTests
{
    private static readonly SizeFeature Bore = new() { Id = "bore", ToleranceMillimetres = 0.020, Budget = new BudgetRule(null, null), NominalMillimetres = 100 };

    [Theory]
    [InlineData(PartClass.Standard, 6)]
    [InlineData(PartClass.Critical, 4)]
    [InlineData(PartClass.Reworkable, 8)]
    public void Nothing_stated_takes_the_share_of_the_class(PartClass partClass, double micrometres)
    {
        var budget = FeatureBudget.Of(Bore, partClass);
        Assert.Equal(micrometres, budget.Micrometres, 1e-9);
        Assert.Equal(new StatedBudget(BudgetSource.Class) { Micrometres = budget.Micrometres, ToleranceMicrometres = 20 }, budget);
    }

    [Fact]
    public void An_amount_and_a_share_are_taken_as_stated()
    {
        Assert.Equal(7.5, FeatureBudget.Of(Bore with { Budget = BudgetRule.Absolute(7.5) }, PartClass.Critical).Micrometres);
        Assert.Equal(5.0, FeatureBudget.Of(Bore with { Budget = BudgetRule.OfTolerance(0.25) }, PartClass.Critical).Micrometres, 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() => FeatureBudget.Of(Bore with { Budget = BudgetRule.Absolute(double.NaN) }, PartClass.Critical));
        Assert.Throws<ArgumentOutOfRangeException>(() => FeatureBudget.Of(Bore with { ToleranceMillimetres = 0 }, PartClass.Critical));
    }

    // Twelve residuals of mean 1 and standard deviation 2: B = 20 − 1 − 3·2 = 13, cut to 10; with half the tolerance 3; with a fifth none.
    [Theory]
    [InlineData(0.050, 25, true)]
    [InlineData(0.020, 10, true)]
    [InlineData(0.016, 8, true)]
    [InlineData(0.010, 3, false)]
    public void The_spread_that_is_not_thermal_leaves_the_rest(double tolerance, double micrometres, bool capped)
    {
        var budget = Assert.IsType<ResidualBudget>(FeatureBudget.FromResiduals(Bore with { ToleranceMillimetres = tolerance }, Spread()));
        Assert.Equal(micrometres, budget.Micrometres, 1e-9);
        Assert.Equal(capped, budget.Capped);
        Assert.Equal(12, budget.Count);
    }

    [Fact]
    public void A_process_that_cannot_hold_the_feature_without_temperature_is_a_case_of_its_own()
    {
        var budget = Assert.IsType<NotHeldWithoutTemperature>(FeatureBudget.FromResiduals(Bore with { ToleranceMillimetres = 0.0075 }, Spread()));
        Assert.Equal(0.75, budget.Micrometres, 1e-9); // the floor of 10 %
        Assert.Equal(0.5, budget.LeftMicrometres, 1e-9);
        Assert.Contains("cannot be held even without temperature", budget.How, StringComparison.Ordinal);
    }

    [Fact]
    public void A_position_keeps_what_its_worst_holes_leave_twice()
    {
        // Hundred holes 3 µm off: Rayleigh of that mean square has 99.7 % below 3/√2·√(−2·ln 0.003) = 7.231 µm; B = 2·(30 − 7.231) = 45.5, cut to 30.
        var spread = ResidualSpread.OfPositions([.. Enumerable.Repeat(3.0, 100)]);
        Assert.Equal(7.231, spread.Quantile997Micrometres, 1e-3);
        Assert.Equal(30, FeatureBudget.FromResiduals(Some.Holes(), spread).Micrometres, 1e-9);
        Assert.Equal(2 * (10 - 7.231), FeatureBudget.FromResiduals(Some.Holes(toleranceMillimetres: 0.020), spread).Micrometres, 2e-3);

        // A thousand see the tail themselves.
        Assert.Equal(999 * 0.997, ResidualSpread.OfPositions([.. Enumerable.Range(0, 1000).Select(i => (double)i)]).Quantile997Micrometres, 1e-6);
    }

    [Fact]
    public void Few_or_unreadable_residuals_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ResidualSpread.OfSizes([1, 2, 3]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ResidualSpread.OfSizes([.. Enumerable.Repeat(double.NaN, 20)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ResidualSpread.OfPositions([.. Enumerable.Repeat(-1.0, 20)]));
    }

    [Theory]
    [InlineData(2.5, HealthGrade.Good)]
    [InlineData(2.6, HealthGrade.MeasurePart)]
    [InlineData(5, HealthGrade.MeasurePart)]
    [InlineData(5.1, HealthGrade.InstrumentFirst)]
    public void Uncertainty_over_budget_says_what_can_be_decided(double u, HealthGrade grade) => Assert.Equal(grade, BudgetHealth.Of(u, 10).Grade);

    [Fact]
    public void The_bonus_is_that_of_the_target_less_two_deviations_and_none_before_one_is_named()
    {
        var hole = FeatureOfSize.Hole(10.0, 10.2);
        var mmc = Some.Holes() with { Modifier = MaterialCondition.Mmc };
        Assert.Equal((60.0, 0.0), (AvailableTolerance.For(mmc).Micrometres, AvailableTolerance.For(mmc).BonusMicrometres));
        var at = AvailableTolerance.AtTarget(mmc, hole, 10.1, 0.02);
        Assert.Equal(60, at.BonusMicrometres, 1e-9); // 100 − 2·20
        Assert.Equal(120, at.Micrometres, 1e-9);
        Assert.Equal(0.5, at.ShareOfStated(-30), 1e-12);
        Assert.Equal(0.25, at.ShareOfAvailable(-30), 1e-12);
        Assert.Equal(0, AvailableTolerance.AtTarget(Some.Holes(), hole, 10.1, 0.02).BonusMicrometres);
        Assert.Equal(60, AvailableTolerance.AtTarget(mmc with { Modifier = MaterialCondition.Lmc }, hole, 10.1, 0.02).BonusMicrometres, 1e-9);
        Assert.Equal(0, AvailableTolerance.AtTarget(Bore, hole, 10.1, 0.02).BonusMicrometres);
    }

    private static ResidualSpread Spread()
    {
        // ±d about 1: standard deviation d·√(12/11) = 2.
        var d = 2 / Math.Sqrt(12.0 / 11.0);
        return ResidualSpread.OfSizes([.. Enumerable.Range(0, 12).Select(i => 1 + (i % 2 == 0 ? d : -d))]);
    }
}
