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

    private static VirtualMachine Loaded(Part part, string machine, double celsius)
    {
        var description = DemoCell.Make();
        var cell = new VirtualCell(description, new VirtualCellOptions(1, DateTimeOffset.UnixEpoch, Script.Empty) { ChanceScale = 0, Past = TimeSpan.Zero });
        cell.Do(new LoadJob(machine, "S1", part.Number, "40") { TrueCelsius = celsius });
        cell.Do(new ProbeDatum(machine));
        return cell.FindMachine(machine)!;
    }
}
