using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Sensors;

public sealed class DryBlockTests
{
    private static readonly DateTimeOffset Begin = new(2026, 1, 10, 6, 0, 0, TimeSpan.Zero);
    private static readonly double[] TrueOffsets = [0.12, -0.07, 0.00, 0.03];

    [Fact]
    public void Offsets_against_a_stated_block_come_out_with_the_block_s_uncertainty_in_them()
    {
        var (result, refused) = DryBlock.Judge(Readings(minutes: 90, block: m => 20), new BlockReference(-1, 20.0, 0.02));

        Assert.Null(refused);
        foreach (var (probe, offset) in result!.Probes.Zip(TrueOffsets))
        {
            Assert.Equal(offset, probe.OffsetKelvins, 0.005);
            Assert.InRange(probe.UncertaintyKelvins, 0.02, 0.0215);
            Assert.Equal(0.014, probe.RepeatabilityKelvins, 0.004);
        }
    }

    [Fact]
    public void Without_a_reference_the_differences_between_the_probes_are_right()
    {
        var (result, _) = DryBlock.Judge(Readings(minutes: 90, block: m => 20.37), BlockReference.MiddleOfProbes);

        Assert.Equal(TrueOffsets[0] - TrueOffsets[1], result!.Probes[0].OffsetKelvins - result.Probes[1].OffsetKelvins, 0.006);
    }

    [Fact]
    public void The_warming_of_the_block_is_cut_off_and_only_the_settled_window_counts()
    {
        var (result, _) = DryBlock.Judge(Readings(minutes: 180, block: m => 20 - (5 * Math.Exp(-m / 15.0))), new BlockReference(-1, 20.0, 0.02));

        Assert.True(result!.From > Begin.AddMinutes(40), $"{result.From:O}");
        Assert.Equal(Begin.AddMinutes(180), result.To);
        Assert.Equal(TrueOffsets[1], result.Probes[1].OffsetKelvins, 0.03);
    }

    [Fact]
    public void A_block_that_still_moves_is_refused_with_one_clear_sentence()
    {
        var (result, refused) = DryBlock.Judge(Readings(minutes: 60, block: m => 20 + (m / 60.0)), BlockReference.MiddleOfProbes);

        Assert.Null(result);
        Assert.StartsWith("the block is not settled: over the last 20 minutes it moved by 0.3", refused, StringComparison.Ordinal);
    }

    [Fact]
    public void A_probe_on_the_table_beside_the_block_is_left_out_and_named()
    {
        var readings = Readings(minutes: 60, block: m => 30, outside: 3);
        var (result, _) = DryBlock.Judge(readings, new BlockReference(-1, 30.0, 0.02));

        Assert.Equal(3, result!.Probes.Count);
        Assert.Contains("air/a4: -10.0 K away", Assert.Single(result.LeftOut), StringComparison.Ordinal);
    }

    [Fact]
    public void Two_temperatures_give_the_gain_error()
    {
        var at15 = DryBlock.Judge(Readings(60, m => 15, gain: 0.01), new BlockReference(-1, 15.0, 0.02)).Result!;
        var at25 = DryBlock.Judge(Readings(60, m => 25, gain: 0.01), new BlockReference(-1, 25.0, 0.02)).Result!;

        Assert.All(DryBlock.WithGain(at15, at25).Probes, probe => Assert.Equal(0.01, probe.GainError!.Value, 0.001));
    }

    private static BlockReadings Readings(int minutes, Func<double, double> block, int outside = -1, double gain = 0)
    {
        var readings = new BlockReadings(QuietZone.Cell);
        var chance = new Random(1);
        for (var n = 0; n < minutes * 6; n++)
        {
            var at = Begin.AddSeconds(10 * n);
            for (var probe = 0; probe < TrueOffsets.Length; probe++)
            {
                // Two uniform draws between -0.0175 and 0.0175 K: a triangle with a standard deviation of 0.0143 K.
                var noise = 0.0175 * 2 * (chance.NextDouble() + chance.NextDouble() - 1);
                var truth = probe == outside ? 20 : block(n / 6.0);
                readings.Add(new Reading(probe, at.ToUnixTimeMilliseconds(), (truth * (1 + gain)) + TrueOffsets[probe] + noise));
            }
        }

        return readings;
    }
}
