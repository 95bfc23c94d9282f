using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// ISO/TR 16015 and ASME B89.6.2: nominal expansion, its differences and uncertainties. Formulas from memory, numbers constructed and
/// recomputed; tolerance 1e-12 of the value unless a row says otherwise.
/// </summary>
public sealed class IsoTr16015_Growth
{
    private const double Exact = 1e-12;

    [Theory]
    [InlineData(500, 23.6, 23, 35.4)] // a
    [InlineData(500, 11.5, 23, 17.25)] // b, the scale
    [InlineData(1000, 11.5, 21.5, 17.25)] // e
    [InlineData(1000, 8.0, 21.5, 12.0)]
    [InlineData(300, 8.6, 18, -5.16)] // f
    [InlineData(300, 0.55, 18, -0.33)]
    [InlineData(1000, 11.5, 21, 11.5)] // k
    public void Nominal_expansion(double lengthMillimetres, double alpha, double celsius, double expected) =>
        Within.Relative(expected, Expansion.NominalMicrometres(lengthMillimetres, alpha, new(celsius)), Exact);

    [Theory]
    [InlineData(500, 23.6, 11.5, 23, 18.15)] // b
    [InlineData(1000, 11.5, 8.0, 21.5, 5.25)] // e
    [InlineData(300, 8.6, 0.55, 18, -4.83)] // f
    public void Nominal_differential_expansion(double lengthMillimetres, double part, double scale, double celsius, double expected) =>
        Within.Relative(expected, Expansion.DifferentialMicrometres(lengthMillimetres, part, new(celsius), scale, new(celsius)), Exact);

    [Fact]
    public void Uncertainty_from_the_coefficient() =>
        Within.Relative(1.8, Expansion.UncertaintyFromAlphaMicrometres(500, 1.2, new(23)), Exact); // c

    [Fact]
    public void Uncertainty_from_the_temperature() =>
        Within.Relative(1.18, Expansion.UncertaintyFromTemperatureMicrometres(500, 23.6, new(0.1)), Exact); // d

    [Fact]
    public void The_thermal_error_index_with_and_without_correction()
    {
        // g: as b, 5 % on each coefficient, TVE 2 µm, WT 50 µm
        var part = ThermalErrorIndex.UncertaintyOfNominalExpansion(35.4, 0.05);
        var scale = ThermalErrorIndex.UncertaintyOfNominalExpansion(17.25, 0.05);
        var both = ThermalErrorIndex.UncertaintyOfDifferentialExpansion(part, scale);
        Within.Relative(1.77, part, Exact);
        Within.Relative(0.8625, scale, Exact);
        Within.Relative(2.6325, both, Exact);
        Within.Relative(45.565, ThermalErrorIndex.UncorrectedPercent(18.15, both, 2, 50), Exact);
        Within.Relative(9.265, ThermalErrorIndex.CorrectedPercent(both, 2, 50), Exact);
    }

    [Fact]
    public void A_budget_of_part_scale_and_environment()
    {
        // h: L 500 mm, 23 °C, u(α) 1.0 and 0.6, u(T) 0.2 and 0.1 K, range 2 µm
        var range = TypeB.FromRange(2);
        var budget = new UncertaintyBudget(
            18.15,
            [
                new("part coefficient", 23.6, 1.0, 1.5),
                new("scale coefficient", 11.5, 0.6, -1.5),
                new("part temperature", 23, 0.2, 11.8),
                new("scale temperature", 23, 0.1, -5.75),
                new("environment", 0, range, 1),
            ]);
        double[] expected = [1.5, 0.9, 2.36, 0.575, 0.577350269];
        for (var i = 0; i < expected.Length; i++) Within.Absolute(expected[i], budget.Contributions[i].Magnitude, 1e-9);
        Within.Absolute(3.048533801, budget.CombinedStandardUncertainty, 1e-9);
        Within.Absolute(6.097067602, 2 * budget.CombinedStandardUncertainty, 2e-9);
    }

    [Fact]
    public void The_environmental_variation_counts_as_rectangular()
    {
        Within.Absolute(1.154700538, TypeB.FromRange(4), 1e-9); // i, ISO/TR 230-9 from memory
        Within.Absolute(2.309401077, 2 * TypeB.FromRange(4), 1e-9);
    }

    [Fact]
    public void Exact_and_first_order_correction_differ_by_13_nanometres()
    {
        // j: 1000 mm, 11.5, +10 K
        var exact = Expansion.ExactCorrectionMicrometres(1000, 11.5, new(30));
        var first = Expansion.FirstOrderCorrectionMicrometres(1000, 11.5, new(30));
        Within.Absolute(114.986777, exact, 1e-6);
        Within.Absolute(115, first, 1e-12);
        Within.Absolute(0.0132, first - exact, 0.00005);
    }

    [Fact]
    public void Sensors_calibrated_together_nearly_cancel_on_equal_materials()
    {
        // JCGM 100, 5.2.2 note 1 (r = 1): the common offset u contributes L·|α_p − α_s|·u, not L·√(α_p² + α_s²)·u. 1 m, 0.1 K.
        Contribution[] lines = [new("part", 20, 0.1, 23.6), new("scale", 20, 0.1, -11.5)];
        Within.Absolute(1.21, new UncertaintyBudget(0, lines, [new("part", "scale", 1)]).CombinedStandardUncertainty, 1e-9);
        Within.Absolute(2.625281, new UncertaintyBudget(0, lines).CombinedStandardUncertainty, 1e-6);
    }

    [Fact]
    public void A_length_out_of_range_says_what_is_allowed()
    {
        var fault = Assert.Throws<ArgumentOutOfRangeException>(() => Expansion.NominalMicrometres(500, 236, new Celsius(23)));
        Assert.Contains("alphaMicrometresPerMetreKelvin must lie in [-2, 40] µm/(m K)", fault.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Expansion.NominalMicrometres(double.NaN, 23.6, new Celsius(23)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Expansion.NominalMicrometres(500, 23.6, new Celsius(double.NaN)));
    }
}
