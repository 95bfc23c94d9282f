using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Lengths that are not at 20 °C: how much longer they are, and how well that is known.</summary>
/// <remarks>
/// ISO/TR 16015 and ISO 230-3:2020, clauses 3.1 to 3.7; ASME B89.6.2 for the uncertainty of nominal expansion and the thermal error
/// index (definitions seen, layout of the formulas from memory). Positive: longer than at 20 °C. Lengths in mm in (0, 20 000],
/// α in µm/(m K) in [-2, 40], taken as constant.
/// </remarks>
public static class Expansion
{
    /// <summary>The lowest expansion coefficient accepted, in µm/(m K).</summary>
    public const double LowestAlpha = -2;

    /// <summary>The highest expansion coefficient accepted, in µm/(m K).</summary>
    public const double HighestAlpha = 40;

    internal const string AlphaUnit = "µm/(m K)";
    private const double LongestMillimetres = 20_000;

    /// <summary>NE = α·L·(T − 20).</summary>
    /// <param name="lengthMillimetres">L, in mm, in (0, 20 000].</param>
    /// <param name="alphaMicrometresPerMetreKelvin">α, in µm/(m K), in [-2, 40].</param>
    /// <param name="mean">The mean temperature of the object.</param>
    /// <returns>The nominal expansion, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double NominalMicrometres(double lengthMillimetres, double alphaMicrometresPerMetreKelvin, Celsius mean)
    {
        Check(lengthMillimetres, alphaMicrometresPerMetreKelvin);
        return alphaMicrometresPerMetreKelvin * FormulaInput.Finite(mean.FromReference.Value, "°C", nameof(mean)) * lengthMillimetres / 1000;
    }

    /// <summary>NDE = L·(α_w·(T_w − 20) − α_s·(T_s − 20)): what a scale reads too much of a workpiece.</summary>
    /// <param name="lengthMillimetres">L, in mm, in (0, 20 000].</param>
    /// <param name="workpieceAlpha">α_w, in µm/(m K), in [-2, 40].</param>
    /// <param name="workpiece">The mean temperature of the workpiece.</param>
    /// <param name="scaleAlpha">α_s, in µm/(m K), in [-2, 40].</param>
    /// <param name="scale">The mean temperature of the scale.</param>
    /// <returns>The nominal differential expansion, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double DifferentialMicrometres(
        double lengthMillimetres, double workpieceAlpha, Celsius workpiece, double scaleAlpha, Celsius scale) =>
        NominalMicrometres(lengthMillimetres, workpieceAlpha, workpiece) - NominalMicrometres(lengthMillimetres, scaleAlpha, scale);

    /// <summary>u = L·|T − 20|·u(α).</summary>
    /// <param name="lengthMillimetres">L, in mm, in (0, 20 000].</param>
    /// <param name="uAlphaMicrometresPerMetreKelvin">u(α), in µm/(m K), 0 or more.</param>
    /// <param name="mean">The mean temperature of the object.</param>
    /// <returns>The standard uncertainty, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double UncertaintyFromAlphaMicrometres(double lengthMillimetres, double uAlphaMicrometresPerMetreKelvin, Celsius mean)
    {
        Check(lengthMillimetres, 0);
        FormulaInput.NotNegative(uAlphaMicrometresPerMetreKelvin, AlphaUnit);
        return uAlphaMicrometresPerMetreKelvin * Math.Abs(FormulaInput.Finite(mean.FromReference.Value, "°C", nameof(mean))) * lengthMillimetres / 1000;
    }

    /// <summary>u = L·|α|·u(T).</summary>
    /// <param name="lengthMillimetres">L, in mm, in (0, 20 000].</param>
    /// <param name="alphaMicrometresPerMetreKelvin">α, in µm/(m K), in [-2, 40].</param>
    /// <param name="uTemperature">u(T), 0 K or more.</param>
    /// <returns>The standard uncertainty, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double UncertaintyFromTemperatureMicrometres(
        double lengthMillimetres, double alphaMicrometresPerMetreKelvin, Kelvins uTemperature)
    {
        Check(lengthMillimetres, alphaMicrometresPerMetreKelvin);
        return Math.Abs(alphaMicrometresPerMetreKelvin) * FormulaInput.NotNegative(uTemperature.Value, "K", nameof(uTemperature)) * lengthMillimetres / 1000;
    }

    /// <summary>The correction of a length to 20 °C, exactly: L_T − L_T/(1 + α·ΔT).</summary>
    /// <param name="lengthMillimetres">The length at its temperature, in mm, in (0, 20 000].</param>
    /// <param name="alphaMicrometresPerMetreKelvin">α, in µm/(m K), in [-2, 40].</param>
    /// <param name="mean">The mean temperature of the object, above -273 °C.</param>
    /// <returns>What to take off the length, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double ExactCorrectionMicrometres(double lengthMillimetres, double alphaMicrometresPerMetreKelvin, Celsius mean)
    {
        Check(lengthMillimetres, alphaMicrometresPerMetreKelvin);
        FormulaInput.InRange(mean.Value, -273.15, 2000, "°C", nameof(mean));
        var strain = alphaMicrometresPerMetreKelvin * 1e-6 * mean.FromReference.Value;
        return lengthMillimetres * 1000 * strain / (1 + strain);
    }

    /// <summary>The correction of a length to 20 °C to first order: L_T·α·ΔT; 13 nm more than the exact one for 1 m of steel at 30 °C.</summary>
    /// <param name="lengthMillimetres">The length at its temperature, in mm, in (0, 20 000].</param>
    /// <param name="alphaMicrometresPerMetreKelvin">α, in µm/(m K), in [-2, 40].</param>
    /// <param name="mean">The mean temperature of the object.</param>
    /// <returns>What to take off the length, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double FirstOrderCorrectionMicrometres(double lengthMillimetres, double alphaMicrometresPerMetreKelvin, Celsius mean) =>
        NominalMicrometres(lengthMillimetres, alphaMicrometresPerMetreKelvin, mean);

    private static void Check(double lengthMillimetres, double alphaMicrometresPerMetreKelvin)
    {
        FormulaInput.InRange(FormulaInput.Positive(lengthMillimetres, "mm"), 0, LongestMillimetres, "mm");
        FormulaInput.InRange(alphaMicrometresPerMetreKelvin, LowestAlpha, HighestAlpha, AlphaUnit);
    }
}
