using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The bow of a free body whose one side is warmer than the other, linear through its thickness.</summary>
/// <remarks>
/// κ = α·ΔT/h; everything else is geometry of a flat arc, exact to 1e-7 for a bow of a workshop (Roark's Formulas for Stress and
/// Strain, thermal stress chapter; Slocum, Precision Machine Design: from memory). The warm side is the convex side; the numbers
/// have the sign of ΔT. Lengths in mm, α in µm/(m K) in [-2, 40].
/// </remarks>
public static class GradientBow
{
    /// <summary>κ = α·ΔT/h.</summary>
    /// <param name="alphaMicrometresPerMetreKelvin">α, in µm/(m K), in [-2, 40].</param>
    /// <param name="across">ΔT, the warm side less the cold side.</param>
    /// <param name="thicknessMillimetres">h, in mm, above 0.</param>
    /// <returns>The curvature, in 1/m.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double CurvaturePerMetre(double alphaMicrometresPerMetreKelvin, Kelvins across, double thicknessMillimetres)
    {
        FormulaInput.InRange(alphaMicrometresPerMetreKelvin, Expansion.LowestAlpha, Expansion.HighestAlpha, Expansion.AlphaUnit);
        FormulaInput.Finite(across.Value, "K", nameof(across));
        FormulaInput.Positive(thicknessMillimetres, "mm");
        return alphaMicrometresPerMetreKelvin * 1e-6 * across.Value / (thicknessMillimetres / 1000);
    }

    /// <summary>R = h/(α·ΔT); infinite for a body that stays straight.</summary>
    /// <param name="alphaMicrometresPerMetreKelvin">α, in µm/(m K), in [-2, 40].</param>
    /// <param name="across">ΔT, the warm side less the cold side.</param>
    /// <param name="thicknessMillimetres">h, in mm, above 0.</param>
    /// <returns>The radius, in m, with the sign of ΔT; positive infinity when there is no bow.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double RadiusMetres(double alphaMicrometresPerMetreKelvin, Kelvins across, double thicknessMillimetres)
    {
        var curvature = CurvaturePerMetre(alphaMicrometresPerMetreKelvin, across, thicknessMillimetres);
        return curvature == 0 ? double.PositiveInfinity : 1 / curvature;
    }

    /// <summary>The sag in the middle between two supports: κ·L²/8.</summary>
    /// <param name="curvaturePerMetre">κ, in 1/m.</param>
    /// <param name="lengthMillimetres">L, in mm, 0 or more.</param>
    /// <returns>The sag, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double BowMicrometres(double curvaturePerMetre, double lengthMillimetres) =>
        Sagitta(curvaturePerMetre, lengthMillimetres) / 8;

    /// <summary>How much each end tilts: κ·L/2.</summary>
    /// <param name="curvaturePerMetre">κ, in 1/m.</param>
    /// <param name="lengthMillimetres">L, in mm, 0 or more.</param>
    /// <returns>The tilt, in µrad.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double EndSlopeMicroradians(double curvaturePerMetre, double lengthMillimetres) =>
        TipAngleMicroradians(curvaturePerMetre, lengthMillimetres) / 2;

    /// <summary>How far the free end of a cantilever or column moves: κ·L²/2.</summary>
    /// <param name="curvaturePerMetre">κ, in 1/m; for a gradient g in K/m it is α·g.</param>
    /// <param name="lengthMillimetres">L, in mm, 0 or more.</param>
    /// <returns>The movement, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double CantileverTipMicrometres(double curvaturePerMetre, double lengthMillimetres) =>
        Sagitta(curvaturePerMetre, lengthMillimetres) / 2;

    /// <summary>How much the free end of a cantilever or column tilts: κ·L.</summary>
    /// <param name="curvaturePerMetre">κ, in 1/m.</param>
    /// <param name="lengthMillimetres">L, in mm, 0 or more.</param>
    /// <returns>The tilt, in µrad.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double TipAngleMicroradians(double curvaturePerMetre, double lengthMillimetres) =>
        FormulaInput.Finite(curvaturePerMetre, "1/m") * FormulaInput.NotNegative(lengthMillimetres, "mm") * 1000;

    /// <summary>The sag of a rectangular plate on three points, corner to corner: κ·(a² + b²)/8.</summary>
    /// <param name="curvaturePerMetre">κ, in 1/m.</param>
    /// <param name="widthMillimetres">a, in mm, 0 or more.</param>
    /// <param name="depthMillimetres">b, in mm, 0 or more.</param>
    /// <returns>The sag, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double PlateMicrometres(double curvaturePerMetre, double widthMillimetres, double depthMillimetres) =>
        (Sagitta(curvaturePerMetre, widthMillimetres) + Sagitta(curvaturePerMetre, depthMillimetres)) / 8;

    /// <summary>How far the middle of a disc stands above its edge: κ·R²/2.</summary>
    /// <param name="curvaturePerMetre">κ, in 1/m.</param>
    /// <param name="radiusMillimetres">R, in mm, 0 or more.</param>
    /// <returns>Edge to centre, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double DiscMicrometres(double curvaturePerMetre, double radiusMillimetres) =>
        Sagitta(curvaturePerMetre, radiusMillimetres) / 2;

    // κ·L² in µm, for κ in 1/m and L in mm.
    private static double Sagitta(double curvaturePerMetre, double lengthMillimetres) =>
        FormulaInput.Finite(curvaturePerMetre, "1/m") * FormulaInput.NotNegative(lengthMillimetres, "mm") * lengthMillimetres;
}
