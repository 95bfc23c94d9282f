using ClimateGuard.Tests.Published;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal;

public sealed class GaussianStreamTests
{
    // The same algorithm in another language (Python, plain IEEE 754 additions, multiplications, divisions and roots), seed 20.
    private static readonly double[] Seed20 =
    [
        -0.6265635938633247, 1.173706060648687, 0.12101403763760606, 0.24386758499842628,
        -0.5931637779911718, 0.6648295150504032, 0.8574984943694122, -0.970618444293376,
        0.25451336927618706, 0.8370097081225272, 0.6696057552102588, -0.9583292782557985,
        1.0690799633306216, 1.2145306288260134, 0.6619666943912836, 0.5977941115220162,
    ];

    [Fact]
    public void A_seed_gives_the_same_numbers_to_the_last_bit_on_every_machine()
    {
        var numbers = new double[16];
        new GaussianStream(20).Fill(numbers);
        for (var i = 0; i < numbers.Length; i++)
            Assert.Equal(BitConverter.DoubleToUInt64Bits(Seed20[i]), BitConverter.DoubleToUInt64Bits(numbers[i]));
    }

    [Fact]
    public void They_are_the_box_muller_numbers_of_the_mathematical_library()
    {
        var bits = new ulong[80_000];
        new UniformStream(7).FillBits(bits);
        var numbers = new double[80_000];
        new GaussianStream(7).Fill(numbers);
        for (var block = 0; block < numbers.Length; block += 8)
        {
            for (var lane = 0; lane < 4; lane++)
            {
                var u1 = (bits[block + lane] >> 12) * Math.Pow(2, -52);
                var u2 = (bits[block + 4 + lane] >> 12) * Math.Pow(2, -52);
                var radius = Math.Sqrt(-2 * Math.Log(1 - u1));
                Within.Absolute(radius * Math.Cos(2 * Math.PI * u2), numbers[block + lane], 1e-14);
                Within.Absolute(radius * Math.Sin(2 * Math.PI * u2), numbers[block + 4 + lane], 1e-14);
            }
        }
    }

    [Fact]
    public void A_million_numbers_have_the_moments_and_tails_of_the_normal_distribution()
    {
        const int n = 1_000_000;
        var numbers = new double[n];
        new GaussianStream(1).Fill(numbers);
        Within.Absolute(0, numbers.Average(), 0.004);
        Within.Absolute(1, numbers.Average(x => x * x), 0.006);
        Within.Absolute(0, numbers.Average(x => x * x * x), 0.016);
        Within.Absolute(3, numbers.Average(x => x * x * x * x), 0.04);
        // Φ at -3, -1.96, -1, 1, 3 (any table)
        foreach (var (z, p) in new[] { (-3.0, 0.001349898), (-1.959963985, 0.025), (-1.0, 0.158655254), (1.0, 0.841344746), (3.0, 0.998650102) })
            Within.Absolute(p, numbers.Count(x => x <= z) / (double)n, 4 * Math.Sqrt(p * (1 - p) / n), $"z {z}");
    }

    [Fact]
    public void The_cuts_of_the_caller_change_nothing()
    {
        var whole = new double[103];
        new GaussianStream(3).Fill(whole);
        var cut = new double[103];
        var stream = new GaussianStream(3);
        var at = 0;
        foreach (var size in (int[])[1, 7, 8, 3, 16, 0, 30])
        {
            stream.Fill(cut.AsSpan(at, size));
            at += size;
        }

        while (at < cut.Length) cut[at++] = stream.Next();
        Assert.Equal(whole, cut);
    }

    [Fact]
    public void A_state_of_zeros_is_refused() =>
        Assert.Contains("Lane 1", Assert.Throws<ArgumentException>(() => UniformStream.FromState([1, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0])).Message, StringComparison.Ordinal);
}
