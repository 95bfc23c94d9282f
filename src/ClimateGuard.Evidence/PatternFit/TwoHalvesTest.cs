using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Two halves of a pattern cut with a half-turn of the table between, tested for being displaced against each other.</summary>
/// <remarks>
/// Translation, rotation and scale common to all holes, plus a displacement of the second half. A pivot of the table that has moved by p
/// from where the control believes it puts the second half 2·p from the first in the frame of the part.
/// </remarks>
/// <param name="DisplacementX">Second half minus first along the first axis, in µm.</param>
/// <param name="DisplacementY">Second half minus first along the second axis, in µm.</param>
/// <param name="PValue">Of "the halves are not displaced", both axes together, in [0, 1].</param>
/// <param name="PivotDriftMicrometres">Half of the length of the displacement, in µm: what the pivot would have moved.</param>
public sealed record TwoHalvesTest(Estimate DisplacementX, Estimate DisplacementY, double PValue, double PivotDriftMicrometres)
{
    /// <summary>Tests the halves.</summary>
    /// <param name="holes">Three or more with a known scatter, four or more without.</param>
    /// <param name="isSecondHalf">Of each hole; both halves must occur, the places of each must not all be one.</param>
    /// <param name="knownScatterMicrometres">σ of one deviation along one axis, in µm, above 0; null to take it from the residuals.</param>
    /// <returns>The displacement with its test.</returns>
    /// <exception cref="ArgumentException">There are too few holes, one half is missing, or the halves cannot be told from scale and rotation.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static TwoHalvesTest Of(
        IReadOnlyList<HoleDeviation> holes, IReadOnlyList<bool> isSecondHalf, double? knownScatterMicrometres = null)
    {
        ArgumentNullException.ThrowIfNull(isSecondHalf);
        var design = PatternDesign.Of(holes, knownScatterMicrometres is null ? 4 : 3);
        EvidenceInput.SameLength(holes.Count, isSecondHalf.Count, nameof(holes), nameof(isSecondHalf));
        if (isSecondHalf.Distinct().Count() < 2) throw new ArgumentException("Both halves must occur.", nameof(isSecondHalf));
        double[] second = [.. isSecondHalf.Select(yes => yes ? 1.0 : 0)];
        var solution = design.Solve(
            [
                design.TranslationX, design.TranslationY, design.Scale, design.Rotation,
                design.Times(design.TranslationX, second), design.Times(design.TranslationY, second),
            ],
            nameof(holes));
        var (sigma, freedom) = solution.Scatter(knownScatterMicrometres);
        double x = solution.Coefficients[4], y = solution.Coefficients[5];
        // Both axes of a similarity are one complex number, so their uncertainties are equal and independent.
        var variance = solution.Inverse[4][4];
        // The squared length of the displacement in its own uncertainty: χ² of two for a known scatter, twice an F for an estimated one.
        var distance = ((x * x) + (y * y)) / variance / (sigma * sigma);
        var p = sigma == 0 ? (x == 0 && y == 0 ? 1 : 0)
            : double.IsInfinity(freedom) ? Tail.ChiSquare(distance, 2) : Tail.FisherSnedecor(distance / 2, 2, freedom);
        return new TwoHalvesTest(
            new Estimate(x, sigma * Math.Sqrt(variance), freedom), new Estimate(y, sigma * Math.Sqrt(variance), freedom), p, double.Hypot(x, y) / 2);
    }
}
