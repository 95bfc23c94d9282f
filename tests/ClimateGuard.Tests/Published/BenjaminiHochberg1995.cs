using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Benjamini and Hochberg, Journal of the Royal Statistical Society B 57 (1995) 289, the paper's 15 p-values; adjusted values from R
/// 4.2.2 p.adjust.
/// </summary>
public sealed class BenjaminiHochberg1995
{
    private static readonly double[] Paper =
        [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0000];

    private static readonly double[] Adjusted =
    [
        0.0015, 0.0030, 0.0095, 0.035625, 0.0603, 0.063857143, 0.063857143, 0.0645, 0.0765, 0.486, 0.581181818, 0.714875, 0.753230769,
        0.813214286, 1,
    ];

    private static readonly double[] Holm = [0.0015, 0.0056, 0.0247, 0.1140, 0.2211, 0.2780, 0.2780, 0.2780, 0.3213, 1, 1, 1, 1, 1, 1];

    [Fact]
    public void The_paper_rejects_four_at_five_percent() => // Benjamini and Hochberg 1995, section 4.1
        Assert.Equal(4, MultipleTesting.BenjaminiHochberg(Paper, 0.05).Kept.Count(kept => kept));

    [Fact]
    public void Adjusted_values_are_those_of_R()
    {
        var found = MultipleTesting.BenjaminiHochberg(Paper, 0.05);
        for (var i = 0; i < Paper.Length; i++) Within.Absolute(Adjusted[i], found.Adjusted[i], 1e-9);
        Assert.Equal(15, found.LookedAt);
    }

    [Fact]
    public void Holm_rejects_three()
    {
        var found = MultipleTesting.Holm(Paper, 0.05);
        Assert.Equal(3, found.Kept.Count(kept => kept));
        for (var i = 0; i < Paper.Length; i++) Within.Absolute(Holm[i], found.Adjusted[i], 1e-12);
    }

    [Fact]
    public void Benjamini_Yekutieli_rejects_three()
    {
        var found = MultipleTesting.BenjaminiYekutieli(Paper, 0.05);
        Assert.Equal(3, found.Kept.Count(kept => kept));
        Within.Absolute(0.0315, found.Adjusted[2], 5e-5); // R 4.2.2: p.adjust(p, "BY")
        Within.Absolute(0.1182, found.Adjusted[3], 5e-5);
    }

    [Fact]
    public void The_order_given_is_the_order_returned()
    {
        var found = MultipleTesting.BenjaminiHochberg([.. Paper.Reverse()], 0.05);
        Within.Absolute(0.035625, found.Adjusted[11], 1e-12);
    }
}
