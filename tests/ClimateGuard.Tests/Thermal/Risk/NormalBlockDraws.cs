using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Risk;

public sealed class NormalBlockDraws
{
    [Fact]
    public void A_million_draws_have_the_moments_and_tails_of_a_normal_distribution()
    {
        var normals = new NormalBlocks();
        normals.Seed(42);
        var numbers = new double[1_000_000];
        normals.Fill(numbers);

        Assert.Equal(0, numbers.Average(), 0.005);
        Assert.Equal(1, numbers.Average(x => x * x), 0.007);
        Assert.Equal(0, numbers.Average(x => x * x * x), 0.02);
        Assert.Equal(3, numbers.Average(x => x * x * x * x), 0.05);
        Assert.Equal(0.15866, numbers.Count(x => x > 1) / 1e6, 0.0018);
        Assert.Equal(0.02275, numbers.Count(x => x < -2) / 1e6, 0.0008);
        Assert.Equal(0.00135, numbers.Count(x => x > 3) / 1e6, 0.0002);
        Assert.True(numbers.Max() < 8.5);
    }

    [Fact]
    public void Neighbours_in_the_stream_are_unrelated()
    {
        var normals = new NormalBlocks();
        normals.Seed(7);
        var numbers = new double[400_000];
        normals.Fill(numbers);

        for (var lag = 1; lag <= 16; lag++)
        {
            var sum = 0.0;
            for (var i = lag; i < numbers.Length; i++)
            {
                sum += numbers[i] * numbers[i - lag];
            }

            Assert.Equal(0, sum / numbers.Length, 0.008);
        }
    }

    [Fact]
    public void A_seed_starts_the_same_numbers_again_however_they_are_asked_for()
    {
        var normals = new NormalBlocks();
        var (whole, parts) = (new double[64], new double[64]);
        normals.Seed(3);
        normals.Fill(whole);
        normals.Seed(3);
        normals.Fill(parts.AsSpan(0, 24));
        normals.Fill(parts.AsSpan(24));

        Assert.Equal(whole, parts);
    }
}
