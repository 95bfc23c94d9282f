namespace ClimateGuard.Evidence;

/// <summary>A hole pattern taken apart into translation, rotation, scale and what is left.</summary>
/// <remarks>
/// Least squares of dᵢ = t + s·(rᵢ − r_c) + θ·J·(rᵢ − r_c), J the quarter turn counter-clockwise (the linear form of Helmert's similarity).
/// With centred places s = Σ(r'·d)/Σr'², θ = Σ(r' × d)/Σr'², t = mean d, and u(s) = u(θ) = σ/√Σr'². Scale is mostly temperature, translation
/// drift since the datum, rotation clocking; what each suspects depends on the cutting strategy (<see cref="PatternMeaning"/>).
/// Immutable; equality is that of the reference.
/// </remarks>
public sealed class SimilarityFit
{
    private readonly double _centreX;
    private readonly double _centreY;
    private readonly double _spread;
    private readonly double _sigma;
    private readonly int _count;

    private SimilarityFit(PatternDesign design, double[] coefficients, IReadOnlyList<HoleDeviation> residuals, double sigma, double freedom)
    {
        (_centreX, _centreY, _spread, _sigma, _count) = (design.CentreX, design.CentreY, design.Spread, sigma, residuals.Count);
        DegreesOfFreedom = freedom;
        Residuals = residuals;
        TranslationX = new Estimate(coefficients[0], sigma / Math.Sqrt(_count), freedom);
        TranslationY = new Estimate(coefficients[1], sigma / Math.Sqrt(_count), freedom);
        ScaleMicrometresPerMetre = new Estimate(coefficients[2] / _spread * 1000, sigma / _spread * 1000, freedom);
        RotationMicroradians = new Estimate(coefficients[3] / _spread * 1000, sigma / _spread * 1000, freedom);
        ResidualRms = Math.Sqrt(residuals.Sum(hole => (hole.Dx * hole.Dx) + (hole.Dy * hole.Dy)) / _count);
    }

    /// <summary>Mean shift of the holes along the first axis, in µm: at their centre, not at the datum.</summary>
    public Estimate TranslationX { get; }

    /// <summary>Mean shift of the holes along the second axis, in µm: at their centre, not at the datum.</summary>
    public Estimate TranslationY { get; }

    /// <summary>s, in µm/m: positive when the pattern is larger than nominal.</summary>
    public Estimate ScaleMicrometresPerMetre { get; }

    /// <summary>θ, in µrad, counter-clockwise positive.</summary>
    public Estimate RotationMicroradians { get; }

    /// <summary>What the four leave of each hole, at its nominal place, in µm.</summary>
    public IReadOnlyList<HoleDeviation> Residuals { get; }

    /// <summary>Root mean square over the holes of the length of the residual vector, in µm.</summary>
    public double ResidualRms { get; }

    /// <summary>σ of one deviation along one axis that the uncertainties rest on, in µm.</summary>
    public double Scatter => _sigma;

    /// <summary>Of the scatter: twice the holes less four, or infinite for a known one.</summary>
    public double DegreesOfFreedom { get; }

    /// <summary>√Σ|r − r_c|² of the places, in m.</summary>
    public double PlaceSpreadMetres => _spread / 1000;

    /// <summary>|t|, in µm.</summary>
    public double TranslationLength => double.Hypot(TranslationX.Value, TranslationY.Value);

    /// <summary>The shift along the first axis at the datum (0, 0), in µm: what drift since probing the datum would show.</summary>
    public Estimate DatumTranslationX => AtDatum(
        TranslationX.Value - ((ScaleMicrometresPerMetre.Value * _centreX) - (RotationMicroradians.Value * _centreY)) / 1000);

    /// <summary>The shift along the second axis at the datum (0, 0), in µm.</summary>
    public Estimate DatumTranslationY => AtDatum(
        TranslationY.Value - ((ScaleMicrometresPerMetre.Value * _centreY) + (RotationMicroradians.Value * _centreX)) / 1000);

    /// <summary>Takes a pattern apart.</summary>
    /// <param name="holes">Two or more with a known scatter, three or more without, not all at one place; from the datum, at 20 °C.</param>
    /// <param name="knownScatterMicrometres">σ of one deviation along one axis, in µm, above 0; null to take it from the residuals.</param>
    /// <returns>The parts with their uncertainties.</returns>
    /// <exception cref="ArgumentException">There are too few holes, or all lie at one place.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static SimilarityFit Of(IReadOnlyList<HoleDeviation> holes, double? knownScatterMicrometres = null)
    {
        var design = PatternDesign.Of(holes, knownScatterMicrometres is null ? 3 : 2);
        var solution = design.Solve([design.TranslationX, design.TranslationY, design.Scale, design.Rotation], nameof(holes));
        var (sigma, freedom) = solution.Scatter(knownScatterMicrometres);
        var c = solution.Coefficients;
        HoleDeviation[] residuals =
        [
            .. holes.Select(hole =>
            {
                double x = (hole.X - design.CentreX) / design.Spread, y = (hole.Y - design.CentreY) / design.Spread;
                return hole with { Dx = hole.Dx - c[0] - (c[2] * x) + (c[3] * y), Dy = hole.Dy - c[1] - (c[2] * y) - (c[3] * x) };
            }),
        ];
        return new SimilarityFit(design, c, residuals, sigma, freedom);
    }

    /// <summary>Covariance of (t_x, t_y, s, θ) at the datum, in µm, µm/m and µrad.</summary>
    /// <remarks>At the centre of the holes the four are uncorrelated; at a datum far from it a scale error is a translation error too.</remarks>
    /// <returns>Four rows of four.</returns>
    public IReadOnlyList<IReadOnlyList<double>> DatumCovariance()
    {
        double variance = _sigma * _sigma, ofScale = variance / (_spread * _spread) * 1e6;
        double x = _centreX / 1000, y = _centreY / 1000;
        var ofTranslation = (variance / _count) + (ofScale * ((x * x) + (y * y)));
        return
        [
            [ofTranslation, 0, -ofScale * x, ofScale * y],
            [0, ofTranslation, -ofScale * y, -ofScale * x],
            [-ofScale * x, -ofScale * y, ofScale, 0],
            [ofScale * y, -ofScale * x, 0, ofScale],
        ];
    }

    /// <summary>s/α: the difference of temperature that would scale the pattern so. Negative: the part was warmer than the scale.</summary>
    /// <remarks>With part and scale of one expansion α this is the scale's excess over 20 °C less the part's, at the moment of the cut.</remarks>
    /// <param name="alphaMicrometresPerMetreKelvin">α of the part, in µm/(m·K), above 0.</param>
    /// <param name="uAlpha">Its standard uncertainty, 0 or more.</param>
    /// <returns>The equivalent mismatch in K with its standard uncertainty.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public Estimate EquivalentMismatchKelvin(double alphaMicrometresPerMetreKelvin, double uAlpha = 0)
    {
        var alpha = EvidenceInput.Positive(alphaMicrometresPerMetreKelvin);
        var kelvin = ScaleMicrometresPerMetre.Value / alpha;
        return new Estimate(
            kelvin, double.Hypot(ScaleMicrometresPerMetre.StandardError / alpha, kelvin * EvidenceInput.NotNegative(uAlpha) / alpha), DegreesOfFreedom);
    }

    /// <summary>The largest diametral position of the pattern if only these parts of it existed, in µm.</summary>
    /// <param name="withTranslation">Whether the translation counts.</param>
    /// <param name="withRotation">Whether the rotation counts.</param>
    /// <param name="withScale">Whether the scale counts.</param>
    /// <returns>2·max|d| over the holes, from the datum (0, 0), in µm.</returns>
    public double WorstPositionOf(bool withTranslation, bool withRotation, bool withScale)
    {
        double tx = withTranslation ? DatumTranslationX.Value : 0, ty = withTranslation ? DatumTranslationY.Value : 0;
        double s = withScale ? ScaleMicrometresPerMetre.Value / 1000 : 0, turn = withRotation ? RotationMicroradians.Value / 1000 : 0;
        return Residuals.Max(hole => Thermal.TruePosition.Diametral(
            tx + (s * hole.X) - (turn * hole.Y), ty + (s * hole.Y) + (turn * hole.X)));
    }

    private Estimate AtDatum(double value) => new(value, Math.Sqrt(DatumCovariance()[0][0]), DegreesOfFreedom);
}
