using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>How far the holes of a pattern move when the part grows, relative to a scale that may grow as well.</summary>
/// <remarks>
/// Every place moves from the datum by (α_part·ΔT_part − α_scale·ΔT_scale)·r: a pure scale of the pattern, so a datum at the rim
/// doubles the worst hole (geometry; no source needed). Positions are diametral, 2·|d|, in µm, for places in mm.
/// </remarks>
public static class PatternGrowth
{
    /// <summary>α_part·(T_part − 20) − α_scale·(T_scale − 20).</summary>
    /// <param name="partAlpha">In µm/(m K), in [-2, 40].</param>
    /// <param name="part">Mean temperature of the part.</param>
    /// <param name="scaleAlpha">In µm/(m K), in [-2, 40].</param>
    /// <param name="scale">Mean temperature of the scale; 20 °C for a scale at reference.</param>
    /// <returns>The differential strain, in µm/m, positive when the part is longer than its scale shows.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double StrainMicrometresPerMetre(double partAlpha, Celsius part, double scaleAlpha, Celsius scale) =>
        Expansion.DifferentialMicrometres(1000, partAlpha, part, scaleAlpha, scale);

    /// <summary>How far every hole of a bolt circle moves outwards when its centre is the datum: strain·D/2.</summary>
    /// <param name="strainMicrometresPerMetre">Differential strain, in µm/m.</param>
    /// <param name="circleMillimetres">D, in mm, above 0.</param>
    /// <returns>The radial shift, in µm, with the sign of the strain; the position value is twice its magnitude.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double RadialShiftMicrometres(double strainMicrometresPerMetre, double circleMillimetres) =>
        FormulaInput.Finite(strainMicrometresPerMetre, "µm/m") * FormulaInput.Positive(circleMillimetres, "mm") / 2000;

    /// <summary>The position value of each place of a pattern, from a datum anywhere.</summary>
    /// <param name="places">The places, in mm.</param>
    /// <param name="datum">The place that stays, in mm: the centre, a hole, a corner.</param>
    /// <param name="strainMicrometresPerMetre">Differential strain, in µm/m.</param>
    /// <returns>2·|d| in µm for each place, in their order.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static IReadOnlyList<double> PositionsMicrometres(
        IReadOnlyList<PatternPoint> places, PatternPoint datum, double strainMicrometresPerMetre)
    {
        ArgumentNullException.ThrowIfNull(places);
        FormulaInput.Finite(strainMicrometresPerMetre, "µm/m");
        var positions = new double[places.Count];
        for (var i = 0; i < positions.Length; i++)
        {
            var distance = TruePosition.Diametral(places[i].X - datum.X, places[i].Y - datum.Y);
            positions[i] = distance * Math.Abs(strainMicrometresPerMetre) / 1000;
        }

        return positions;
    }

    /// <summary>The places of a bolt circle about its centre, the first on the first axis.</summary>
    /// <param name="circleMillimetres">D, in mm, above 0.</param>
    /// <param name="holes">How many, in [1, 1000].</param>
    /// <returns>The places, in mm, counter-clockwise.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static IReadOnlyList<PatternPoint> BoltCircle(double circleMillimetres, int holes)
    {
        FormulaInput.Positive(circleMillimetres, "mm");
        FormulaInput.InRange(holes, 1, 1000, "holes");
        var places = new PatternPoint[holes];
        for (var i = 0; i < holes; i++)
        {
            var (sine, cosine) = Math.SinCos(2 * Math.PI * i / holes);
            places[i] = new(circleMillimetres / 2 * cosine, circleMillimetres / 2 * sine);
        }

        return places;
    }
}
