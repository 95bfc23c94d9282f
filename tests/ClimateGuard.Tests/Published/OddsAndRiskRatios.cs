using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Odds and risk ratios: Doll and Hill, British Medical Journal 1950 and later series (from memory, recomputed in R 4.2.2); R data set
/// UCBAdmissions (Bickel and others, Science 187 (1975) 398) with mantelhaen.test and the Woolf test of its help page.
/// </summary>
public sealed class OddsAndRiskRatios
{
    private static readonly TwoByTwo Invented = new(20, 80, 10, 90);

    private static readonly TwoByTwo[] Admissions =
    [
        new(512, 313, 89, 19), new(353, 207, 17, 8), new(120, 205, 202, 391), new(138, 279, 131, 244), new(53, 138, 94, 299), new(22, 351, 24, 317),
    ];

    [Fact]
    public void Odds_ratio_with_the_interval_of_Woolf()
    {
        var odds = Ratios.Odds(Invented);
        Within.Absolute(2.25, odds.Ratio, 1e-14);
        Within.Absolute(0.416666666667, odds.LogStandardError, 1e-12);
        Within.Absolute(0.994294892282, odds.Interval.Low, 1e-11);
        Within.Absolute(5.09154782882, odds.Interval.High, 1e-10);
        Assert.False(odds.ZeroCellCorrected);
    }

    [Theory]
    [InlineData(647, 2, 622, 27, 14.0426045016, 3.32532881058, 59.3008247971)] // Doll and Hill 1950, men (from memory)
    [InlineData(1350, 7, 1296, 61, 9.07738095238, 4.13684405552, 19.918286464)] // the larger series (from memory)
    public void Smoking_and_lung_cancer(int casesSmoking, int casesNot, int controlsSmoking, int controlsNot, double ratio, double low, double high)
    {
        var odds = Ratios.Odds(new TwoByTwo(casesSmoking, casesNot, controlsSmoking, controlsNot));
        Within.Relative(ratio, odds.Ratio, 1e-10);
        Within.Relative(low, odds.Interval.Low, 1e-10);
        Within.Relative(high, odds.Interval.High, 1e-10);
    }

    [Fact]
    public void Risk_ratio_and_attributable_fraction()
    {
        var risk = Ratios.Risk(Invented); // R: rr*exp(c(-1,1)*qnorm(.975)*sqrt(1/20-1/100+1/10-1/100))
        Within.Absolute(2.0, risk.Ratio, 1e-14);
        Within.Absolute(0.360555127546399, risk.LogStandardError, 1e-14);
        Within.Absolute(0.986563206731782, risk.Interval.Low, 1e-12);
        Within.Absolute(4.054479198804627, risk.Interval.High, 1e-12);
        var fraction = Ratios.Attributable(Invented);
        Within.Absolute(0.5, fraction.Fraction, 1e-14); // 1 − 1/2
        Within.Absolute(-0.0136197997011567, fraction.Interval.Low, 1e-12);
        Within.Absolute(0.7533591983170544, fraction.Interval.High, 1e-12);
        Within.Absolute(20, fraction.BadExpectedWithoutExposure, 1e-12); // 10 % of 200
    }

    [Fact]
    public void Admissions_to_Berkeley_by_department()
    {
        var found = MantelHaenszel.Of(Admissions);
        Within.Absolute(0.904696828258623, found.OddsRatio, 1e-13); // mantelhaen.test(UCBAdmissions)
        Within.Absolute(0.771907361759350, found.Interval.Low, 1e-12);
        Within.Absolute(1.060329764436656, found.Interval.High, 1e-12);
        Within.Absolute(1.426946228586688, found.Association.Statistic, 1e-11);
        Within.Absolute(0.232263462817048, found.Association.PValue, 1e-11);
        Within.Absolute(17.64407636422938, found.Heterogeneity.Statistic, 1e-10); // woolf(UCBAdmissions) of the help page
        Within.Absolute(0.00342720049352208, found.Heterogeneity.PValue, 1e-12);
        Within.Absolute(1.524606660443436, MantelHaenszel.Of(Admissions, continuity: false).Association.Statistic, 1e-11);
    }

    [Fact]
    public void A_zero_cell_is_corrected_and_says_so()
    {
        var odds = Ratios.Odds(new TwoByTwo(4, 0, 3, 16));
        Assert.True(odds.ZeroCellCorrected);
        Within.Relative(4.5 * 16.5 / (0.5 * 3.5), odds.Ratio, 1e-14); // Haldane and Anscombe (from memory): 0.5 to every cell
    }
}
