namespace ClimateGuard.Thermal;

/// <summary>Standard uncertainties from limits rather than from repeated readings (JCGM 100, 4.3; JCGM 101, 6.4).</summary>
public static class TypeB
{
    /// <summary>Limits ±a, any value between as likely: a/√3 (JCGM 100, 4.3.7).</summary>
    /// <param name="halfWidth">a, 0 or more.</param>
    /// <returns>u, in the unit of a.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static double Rectangular(double halfWidth) => FormulaInput.NotNegative(halfWidth, "") / Math.Sqrt(3);

    /// <summary>Limits ±a, the middle more likely: a/√6 (JCGM 100, 4.3.9).</summary>
    /// <param name="halfWidth">a, 0 or more.</param>
    /// <returns>u, in the unit of a.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static double Triangular(double halfWidth) => FormulaInput.NotNegative(halfWidth, "") / Math.Sqrt(6);

    /// <summary>A sinusoidal swing met at any moment: A/√2 (JCGM 100, H.1.3.4).</summary>
    /// <param name="amplitude">A, half the range, 0 or more.</param>
    /// <returns>u, in the unit of A.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static double Arcsine(double amplitude) => FormulaInput.NotNegative(amplitude, "") / Math.Sqrt(2);

    /// <summary>Limits ±a that are themselves only known to ±d: √(a²/3 + d²/9) (JCGM 101, 6.4.3.3).</summary>
    /// <param name="halfWidth">a, 0 or more.</param>
    /// <param name="limitHalfWidth">d, in [0, a].</param>
    /// <returns>u, in the unit of a.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double CurvilinearTrapezoid(double halfWidth, double limitHalfWidth)
    {
        FormulaInput.NotNegative(halfWidth, "");
        FormulaInput.InRange(limitHalfWidth, 0, halfWidth, "");
        return Math.Sqrt((halfWidth * halfWidth / 3) + (limitHalfWidth * limitHalfWidth / 9));
    }

    /// <summary>A range max − min as rectangular: E/(2·√3); for the environmental variation error ISO/TR 230-9 (from memory).</summary>
    /// <param name="range">E, 0 or more.</param>
    /// <returns>u, in the unit of E.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static double FromRange(double range) => Rectangular(FormulaInput.NotNegative(range, "") / 2);

    /// <summary>A certificate's expanded uncertainty: U/k (JCGM 100, 4.3.3).</summary>
    /// <param name="expanded">U, 0 or more.</param>
    /// <param name="coverageFactor">k, above 0.</param>
    /// <returns>u, in the unit of U.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double FromExpanded(double expanded, double coverageFactor) =>
        FormulaInput.NotNegative(expanded, "") / FormulaInput.Positive(coverageFactor, "");

    /// <summary>Degrees of freedom of a u that may be wrong by a share: ν = 1/(2·share²) (JCGM 100, G.4.2).</summary>
    /// <param name="share">Δu/u, in (0, 1]; 0.1 gives 50, 0.5 gives 2.</param>
    /// <returns>ν, 0.5 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The share lies outside its range, or is not a number.</exception>
    public static double DegreesOfFreedom(double share)
    {
        FormulaInput.InRange(FormulaInput.Positive(share, ""), 0, 1, "");
        return 1 / (2 * share * share);
    }
}
