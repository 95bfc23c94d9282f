using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The tolerance that a position really has: stated, and what its material condition adds (ISO 2692, from memory).</summary>
/// <remarks>
/// Before the finish cut the actual size of the hole is not known, so the bonus to count on is 0; with a target size it is that of the target
/// less 2·s of the size, never that of the far limit. Regardless of feature size there is none. Immutable.
/// </remarks>
public sealed record AvailableTolerance
{
    /// <summary>How many standard deviations of the size the bonus gives away (common practice, no source).</summary>
    public const double GuardDeviations = 2;

    private AvailableTolerance()
    {
    }

    /// <summary>The tolerance in the frame, in µm.</summary>
    public required double StatedMicrometres { get; init; }

    /// <summary>What the material condition adds and can be counted on, in µm, 0 or more.</summary>
    public required double BonusMicrometres { get; init; }

    /// <summary>Both, in µm.</summary>
    public double Micrometres => StatedMicrometres + BonusMicrometres;

    /// <summary>The tolerance without a known size: no bonus.</summary>
    /// <param name="feature">The feature; its tolerance is positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance is not a positive number.</exception>
    public static AvailableTolerance For(Feature feature) => new() { StatedMicrometres = Stated(feature), BonusMicrometres = 0 };

    /// <summary>The tolerance if each hole is finished at a target size.</summary>
    /// <param name="feature">The feature; its tolerance is positive, its modifier decides.</param>
    /// <param name="size">The limits of the hole or shaft.</param>
    /// <param name="targetMillimetres">The size aimed at, in mm, above 0.</param>
    /// <param name="sizeDeviationMillimetres">Standard deviation of the size, in mm, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static AvailableTolerance AtTarget(Feature feature, FeatureOfSize size, double targetMillimetres, double sizeDeviationMillimetres)
    {
        ArgumentNullException.ThrowIfNull(size);
        var stated = Stated(feature);
        var guard = GuardDeviations * FormulaInput.NotNegative(sizeDeviationMillimetres, "mm");
        var hasBonus = feature is PositionFeature or CoaxialityFeature;
        return new()
        {
            StatedMicrometres = stated,
            BonusMicrometres = hasBonus ? size.ExpectedBonusMillimetres(targetMillimetres, guard, feature.Modifier) * 1000 : 0,
        };
    }

    /// <summary>|effect| over the stated tolerance: as if regardless of feature size.</summary>
    /// <param name="effectMicrometres">The effect, in µm.</param>
    public double ShareOfStated(double effectMicrometres) => Math.Abs(effectMicrometres) / StatedMicrometres;

    /// <summary>|effect| over the available tolerance.</summary>
    /// <param name="effectMicrometres">The effect, in µm.</param>
    public double ShareOfAvailable(double effectMicrometres) => Math.Abs(effectMicrometres) / Micrometres;

    private static double Stated(Feature feature)
    {
        ArgumentNullException.ThrowIfNull(feature);
        return FormulaInput.Positive(feature.ToleranceMillimetres, "mm", "tolerance") * 1000;
    }
}
