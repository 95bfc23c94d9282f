using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>A hole or a shaft with its limits of size, and what its material condition gives to its position.</summary>
/// <remarks>
/// ISO 2692, ASME Y14.5-2018 (from memory). Maximum material is the smallest hole and the largest shaft, least material the other
/// limit. Sizes in mm. Immutable, so safe across threads. Before the finish cut the actual size is not known, and then the bonus
/// to count on is 0, never that of the far limit.
/// </remarks>
public sealed record FeatureOfSize
{
    private FeatureOfSize(bool isHole, double smallest, double largest)
    {
        IsHole = isHole;
        SmallestMillimetres = smallest;
        LargestMillimetres = largest;
    }

    /// <summary>Whether it is a hole; else a shaft.</summary>
    public bool IsHole { get; }

    /// <summary>The lower limit of size, in mm.</summary>
    public double SmallestMillimetres { get; }

    /// <summary>The upper limit of size, in mm.</summary>
    public double LargestMillimetres { get; }

    /// <summary>The size with the most material left: the smallest hole, the largest shaft, in mm.</summary>
    public double MaximumMaterialSizeMillimetres => IsHole ? SmallestMillimetres : LargestMillimetres;

    /// <summary>The size with the least material left: the largest hole, the smallest shaft, in mm.</summary>
    public double LeastMaterialSizeMillimetres => IsHole ? LargestMillimetres : SmallestMillimetres;

    /// <summary>A hole with its limits.</summary>
    /// <param name="smallestMillimetres">Lower limit, in mm, above 0.</param>
    /// <param name="largestMillimetres">Upper limit, in mm, not below the lower.</param>
    /// <returns>The hole.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A limit is out of order, or not a number.</exception>
    public static FeatureOfSize Hole(double smallestMillimetres, double largestMillimetres) => Of(true, smallestMillimetres, largestMillimetres);

    /// <summary>A shaft, pin or boss with its limits.</summary>
    /// <param name="smallestMillimetres">Lower limit, in mm, above 0.</param>
    /// <param name="largestMillimetres">Upper limit, in mm, not below the lower.</param>
    /// <returns>The shaft.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A limit is out of order, or not a number.</exception>
    public static FeatureOfSize Shaft(double smallestMillimetres, double largestMillimetres) => Of(false, smallestMillimetres, largestMillimetres);

    /// <summary>What the actual size adds to the stated position tolerance.</summary>
    /// <remarks>The distance of the actual size from its maximum (Mmc) or least (Lmc) material size, never negative and never more
    /// than the size tolerance, since a size outside its limits earns nothing; 0 for Rfs.</remarks>
    /// <param name="actualMillimetres">The actual mating size, in mm, above 0.</param>
    /// <param name="modifier">The material condition.</param>
    /// <returns>The bonus, in mm, 0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The size is not above 0, or the modifier is not known.</exception>
    public double BonusMillimetres(double actualMillimetres, MaterialCondition modifier)
    {
        FormulaInput.Positive(actualMillimetres, "mm");
        var from = modifier switch
        {
            MaterialCondition.Rfs => (double?)null,
            MaterialCondition.Mmc => MaximumMaterialSizeMillimetres,
            MaterialCondition.Lmc => LeastMaterialSizeMillimetres,
            _ => throw new ArgumentOutOfRangeException(nameof(modifier), modifier, "modifier must be Rfs, Mmc or Lmc."),
        };
        return from is null ? 0 : Math.Abs(Math.Clamp(actualMillimetres, SmallestMillimetres, LargestMillimetres) - from.Value);
    }

    /// <summary>The stated position tolerance and its bonus.</summary>
    /// <param name="statedMillimetres">The tolerance in the frame, in mm, 0 or more.</param>
    /// <param name="actualMillimetres">The actual mating size, in mm, above 0.</param>
    /// <param name="modifier">The material condition.</param>
    /// <returns>The tolerance available, in mm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public double AvailableToleranceMillimetres(double statedMillimetres, double actualMillimetres, MaterialCondition modifier) =>
        FormulaInput.NotNegative(statedMillimetres, "mm") + BonusMillimetres(actualMillimetres, modifier);

    /// <summary>The bonus to count on before the cut when it is finished at a target size: what is left after k·s of the process.</summary>
    /// <remarks>Common practice, no source: target − k·s for a hole at maximum material, and so on towards the limit that earns nothing.</remarks>
    /// <param name="targetMillimetres">The size aimed at, in mm, above 0.</param>
    /// <param name="guardMillimetres">How far the process may miss the target, in mm, 0 or more.</param>
    /// <param name="modifier">The material condition.</param>
    /// <returns>The bonus, in mm, 0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public double ExpectedBonusMillimetres(double targetMillimetres, double guardMillimetres, MaterialCondition modifier) =>
        Math.Max(0, BonusMillimetres(targetMillimetres, modifier) - FormulaInput.NotNegative(guardMillimetres, "mm"));

    /// <summary>The size of the mating part that must always fit: hole MMS − t, shaft MMS + t (ISO 2692).</summary>
    /// <param name="statedMillimetres">The tolerance in the frame at maximum material, in mm, 0 or more.</param>
    /// <returns>The maximum material virtual size, in mm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance is negative, or not a number.</exception>
    public double MaximumMaterialVirtualSizeMillimetres(double statedMillimetres)
    {
        FormulaInput.NotNegative(statedMillimetres, "mm");
        return IsHole ? SmallestMillimetres - statedMillimetres : LargestMillimetres + statedMillimetres;
    }

    /// <summary>The size that must always stay inside the material: hole LMS + t, shaft LMS − t (ISO 2692).</summary>
    /// <param name="statedMillimetres">The tolerance in the frame at least material, in mm, 0 or more.</param>
    /// <returns>The least material virtual size, in mm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance is negative, or not a number.</exception>
    public double LeastMaterialVirtualSizeMillimetres(double statedMillimetres)
    {
        FormulaInput.NotNegative(statedMillimetres, "mm");
        return IsHole ? LargestMillimetres + statedMillimetres : SmallestMillimetres - statedMillimetres;
    }

    private static FeatureOfSize Of(bool isHole, double smallestMillimetres, double largestMillimetres)
    {
        FormulaInput.Positive(smallestMillimetres, "mm");
        FormulaInput.InRange(largestMillimetres, smallestMillimetres, double.MaxValue, "mm");
        return new(isHole, smallestMillimetres, largestMillimetres);
    }
}
