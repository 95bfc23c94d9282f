using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Another part with the same exposure: a line of the containment list; equality is by value.</summary>
/// <param name="Serial">Serial number.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="CutAt">When it was cut.</param>
/// <param name="PredictedMicrometres">Its predicted effect on the feature, in µm.</param>
/// <param name="Inspected">It was inspected.</param>
/// <param name="InTolerance">What inspection said, or null.</param>
/// <param name="ResidualRisk">Probability that it is out of tolerance, in [0, 1]: of one not inspected, from prediction and scatter.</param>
public sealed record ExposedPart(
    string Serial, string Machine, DateTimeOffset CutAt, double PredictedMicrometres, bool Inspected, bool? InTolerance, double ResidualRisk)
{
    /// <summary>Scatter taken where no part of the feature was inspected often enough, as a share of the tolerance (common practice, no source).</summary>
    public const double UsualScatterShare = 0.125;

    /// <summary>Whether an effect is the same exposure as that of the part in question: beyond the budget like it, or four fifths of it.</summary>
    /// <param name="mine">Effect on the part in question, in µm.</param>
    /// <param name="other">Effect on the other part, in µm.</param>
    /// <param name="budgetMicrometres">Budget, in µm.</param>
    public static bool IsAlike(double mine, double other, double budgetMicrometres) =>
        Math.Abs(mine) > budgetMicrometres ? Math.Abs(other) > budgetMicrometres
        : other * mine > 0 && Math.Abs(other) >= 0.8 * Math.Abs(mine) && Math.Abs(mine) > 0.2 * budgetMicrometres;

    /// <summary>P(|effect + scatter| &gt; tolerance), the scatter normal.</summary>
    /// <param name="predicted">Predicted effect, in µm.</param>
    /// <param name="uPredicted">Its standard uncertainty, in µm.</param>
    /// <param name="scatter">Standard deviation of everything else, in µm.</param>
    /// <param name="feature">The feature.</param>
    public static double Risk(double predicted, double uPredicted, double scatter, Feature feature)
    {
        ArgumentNullException.ThrowIfNull(feature);
        var tolerance = feature.ToleranceMillimetres * 1000;
        var u = double.Hypot(uPredicted, scatter);
        return u > 0 ? Math.Clamp(1 - Conformance.Between(predicted, u, -tolerance, tolerance), 0, 1) : Math.Abs(predicted) > tolerance ? 1 : 0;
    }
}
