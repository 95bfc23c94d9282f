using ClimateGuard.Evidence;
using ClimateGuard.Tests.Published;

namespace ClimateGuard.Tests.Evidence;

/// <summary>Expected values from R 4.2.2: mean, sd, qchisq, qnorm; the Rice quantile as sqrt(qchisq(p, 2, ncp = shift²)).</summary>
public sealed class CapabilityTests
{
    private static readonly double[] Values = [3.2, -1.5, 0.8, 2.1, 4.4, -0.3, 1.9, 2.7, 0.1, 3.6, 1.2, 2.2];
    private static readonly double[] Dx = [2.1, 3.4, 1.2, 2.8, 0.4, 3.9, 2.2, 1.7];
    private static readonly double[] Dy = [-1.0, 0.6, -2.2, 0.1, -1.4, 0.9, -0.3, -1.9];

    [Fact]
    public void Indices_and_their_intervals()
    {
        var found = Capability.OfNormal(Values, -10, 10);
        Within.Absolute(1.717821029941446, found.StandardDeviation, 1e-13);
        Within.Absolute(1.940442732527820, found.Pp!.Value, 1e-13);
        Within.Absolute(1.610567467998090, found.Ppk, 1e-13);
        Within.Absolute(1.142863452068818, found.PpInterval!.Value.Low, 1e-11);
        Within.Absolute(2.739209507809156, found.PpInterval.Value.High, 1e-11);
        Within.Absolute(0.911640194844417, found.PpkInterval.Low, 1e-11);
        Within.Absolute(2.309494741151763, found.PpkInterval.High, 1e-11);
    }

    [Fact]
    public void At_thirty_parts_an_index_is_known_to_a_quarter()
    {
        double[] thirty = [.. Enumerable.Range(0, 30).Select(i => Math.Sin(i * 2.4))];
        var found = Capability.OfNormal(thirty, -3, 3);
        Assert.InRange(found.PpkInterval.HalfWidth / found.Ppk, 0.24, 0.29);
        Within.Absolute(0.743873174566854, found.PpInterval!.Value.Low / found.Pp!.Value, 1e-11); // sqrt(qchisq(.025, 29)/29)
        Within.Absolute(1.255639496420663, found.PpInterval.Value.High / found.Pp.Value, 1e-11);
    }

    [Fact]
    public void Fewer_independent_values_widen_the_interval()
    {
        var all = Capability.OfNormal(Values, -10, 10);
        var few = Capability.OfNormal(Values, -10, 10, effectiveCount: 5.5);
        Assert.Equal(all.Ppk, few.Ppk);
        Assert.True(few.PpkInterval.HalfWidth > 1.4 * all.PpkInterval.HalfWidth);
    }

    [Fact]
    public void One_limit_gives_no_Pp()
    {
        var found = Capability.OfNormal(Values, null, 10);
        Assert.Null(found.Pp);
        Within.Absolute(1.610567467998090, found.Ppk, 1e-13);
    }

    // domain.md F.11 [C]
    [Fact]
    public void Half_of_the_spread_is_a_quarter_of_the_variance()
    {
        var without = ThermalShare.SpreadWithout(8, 4);
        Within.Absolute(6.9, without, 0.03); // √(64 − 16) = 6.93
        Within.Absolute(0.25, 1 - (without * without / (8 * 8)), 1e-14);
    }

    [Fact]
    public void The_noise_of_the_prediction_is_taken_out_of_the_rest()
    {
        double[] y = [4, -3, 5, -6, 2, -1, 3, -4], x = [2, -2, 2, -3, 1, -1, 2, -1], u = [1, 1, 1, 1, 1, 1, 1, 1];
        var found = ThermalShare.Of(y, x, u, -20, 20);
        // r = 2 −1 3 −3 1 0 1 −3: mean 0, Σr² = 34, var 34/7, less 1
        Within.Absolute(Math.Sqrt((34.0 / 7) - 1), found.WithoutThermalPart.StandardDeviation, 1e-13);
        Assert.False(found.NoiseFloorMet);
        Assert.True(found.WithoutThermalPart.Ppk > found.AsMeasured.Ppk);
    }

    [Fact]
    public void A_prediction_noisier_than_what_is_left_meets_the_floor()
    {
        double[] y = [4, -3, 5, -6, 2, -1, 3, -4], x = [2, -2, 2, -3, 1, -1, 2, -1], u = [2, 2, 2, 2, 2, 2, 2, 2];
        var found = ThermalShare.Of(y, x, u, -20, 20);
        Assert.True(found.NoiseFloorMet);
        Within.Absolute(Math.Sqrt(34.0 / 7 / 4), found.WithoutThermalPart.StandardDeviation, 1e-13);
    }

    [Theory]
    [InlineData(0.99865, 0, 3.6352855971799)] // Rayleigh
    [InlineData(0.99865, 1.5, 4.6826224294672)]
    [InlineData(0.5, 1.5, 1.82547152540967)]
    [InlineData(0.99865, 10, 13.0436818900532)]
    [InlineData(0.5, 10, 10.0499586252229)]
    public void Quantiles_of_a_radial_distance(double probability, double shift, double expected) =>
        Within.Relative(expected, PositionCapability.RadialQuantile(probability, shift, 1), 1e-11);

    [Fact]
    public void Capability_of_hole_vectors()
    {
        var found = PositionCapability.OfVectors(Dx, Dy, 20);
        Within.Absolute(2.30600439071568, found.Shift, 1e-12);
        Within.Absolute(1.14918449345612, found.ScatterPerAxis, 1e-12);
        Within.Absolute(5.17512783025274, found.Median, 1e-10);
        Within.Absolute(11.8563319762529, found.UpperPercentile, 1e-10);
        Within.Absolute(2.21889226040525, found.Ppk, 1e-10);
        Assert.True(found.PpkInterval.Contains(found.Ppk));
    }

    [Fact]
    public void Capability_of_positions_alone_takes_all_for_scatter()
    {
        double[] positions = [.. Dx.Select((x, i) => 2 * Math.Sqrt((x * x) + (Dy[i] * Dy[i])))];
        var found = PositionCapability.OfPositions(positions, 20);
        Within.Absolute(1.95304249825753, found.ScatterPerAxis, 1e-12);
        Within.Absolute(14.1997345291918, found.UpperPercentile, 1e-10);
        Within.Absolute(1.60415209810877, found.Ppk, 1e-11);
        Assert.True(found.PpkInterval.Contains(found.Ppk));
    }

    [Fact]
    public void Values_without_spread_have_no_capability() =>
        Assert.Throws<ArgumentException>(() => Capability.OfNormal([1, 1, 1], 0, 2));
}
