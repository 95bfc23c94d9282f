using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator;

/// <summary>The simulator's truth on cases that a hand calculation settles.</summary>
public class TrueEffectTests
{
    [Fact]
    public void A_warm_part_on_a_good_scale_comes_out_small()
    {
        // 11.6 um/(m K) * 0.9 m * 1 K, scale and structure at 20 degC.
        var machine = Loaded(DemoCell.Disc, "M3", 21.0);
        Assert.Equal(10.44, machine.Truth()[0].EffectMicrometres, 0.01);
        Assert.Equal(10.44, machine.Truth()[0].MismatchMicrometres, 0.01);
        Assert.Equal(0, machine.Truth()[0].DriftMicrometres, 0.01);
    }

    [Fact]
    public void A_size_cut_cold_comes_out_large()
    {
        // 40 mm * 11.6 um/(m K) * 5 K.
        var machine = Loaded(DemoCell.Die, "M5", 15.0);
        Assert.Equal(2.32, machine.Truth()[0].EffectMicrometres, 0.01);
    }

    // A bolt circle of 400 mm, strain 10 um/m, the tool 3 um to +x: the hole on +x is 4 + 3 off, so 14 in diameter.
    [Fact]
    public void Drift_under_a_standing_table_shifts_the_whole_pattern() =>
        Assert.Equal(14.0, Pattern(CuttingStrategy.Interpolated, 10, new Displacement(3, 0, 0)), 1e-9);

    // The same drift with an indexing table puts every hole 3 um farther out; a drift along y turns the pattern.
    [Theory]
    [InlineData(10, 3, 0, 14.0)]
    [InlineData(-10, 3, 0, 2.0)]
    [InlineData(0, 0, 3, 6.0)]
    public void Drift_under_an_indexing_table_grows_or_turns_the_pattern(double strain, double x, double y, double expected) =>
        Assert.Equal(expected, Pattern(CuttingStrategy.TableIndexed, strain, new Displacement(x, y, 0)), 1e-9);

    [Fact]
    public void A_depth_takes_the_drift_with_the_opposite_sign()
    {
        var depth = new DepthFeature { Id = "d", ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(6), NominalMillimetres = 100 };
        Assert.Equal(-4.0, TrueEffect.Micrometres(depth, 10, new Displacement(0, 0, 5), RotaryAxis.B), 1e-9);
    }

    [Fact]
    public void A_pivot_that_moved_counts_four_times_in_coaxiality()
    {
        var bores = new CoaxialityFeature { Id = "c", ToleranceMillimetres = 0.008, Budget = BudgetRule.Absolute(2.4) };
        Assert.Equal(2.4, TrueEffect.Micrometres(bores, 0, new Displacement(-0.6, 0, 0), RotaryAxis.B), 1e-9);
    }

    [Fact]
    public void A_turned_diameter_takes_twice_the_drift_of_x()
    {
        var turned = new SizeFeature
        {
            Id = "s", ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(6), NominalMillimetres = 700, Strategy = CuttingStrategy.Turned,
        };
        Assert.Equal(13.0, TrueEffect.Micrometres(turned, 10, new Displacement(3, 0, 0), RotaryAxis.B), 1e-9);
    }

    private static double Pattern(CuttingStrategy strategy, double strain, Displacement moved)
    {
        var pattern = new PositionFeature
        {
            Id = "p", ToleranceMillimetres = 0.06, Budget = BudgetRule.Absolute(18), Points = DemoCell.Circle(400, 4), Strategy = strategy,
        };
        return TrueEffect.Micrometres(pattern, strain, moved, RotaryAxis.B);
    }

    private static VirtualMachine Loaded(Part part, string machine, double celsius)
    {
        var description = DemoCell.Make();
        var cell = new VirtualCell(description, new VirtualCellOptions(1, DateTimeOffset.UnixEpoch, Script.Empty) { ChanceScale = 0, Past = TimeSpan.Zero });
        cell.Do(new LoadJob(machine, "S1", part.Number, "40") { TrueCelsius = celsius });
        cell.Do(new ProbeDatum(machine));
        return cell.FindMachine(machine)!;
    }
}
