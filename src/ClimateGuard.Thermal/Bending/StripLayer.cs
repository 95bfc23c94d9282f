namespace ClimateGuard.Thermal;

/// <summary>One layer of a <see cref="TwoLayerStrip"/>.</summary>
/// <param name="ThicknessMillimetres">Thickness, in mm, above 0.</param>
/// <param name="AlphaMicrometresPerMetreKelvin">Expansion coefficient, in µm/(m K), in [-2, 40].</param>
/// <param name="ModulusGigapascals">Young's modulus, in GPa, above 0.</param>
public sealed record StripLayer(double ThicknessMillimetres, double AlphaMicrometresPerMetreKelvin, double ModulusGigapascals)
{
    internal void Check(string layer)
    {
        FormulaInput.Positive(ThicknessMillimetres, "mm", $"{layer}.{nameof(ThicknessMillimetres)}");
        FormulaInput.Positive(ModulusGigapascals, "GPa", $"{layer}.{nameof(ModulusGigapascals)}");
        FormulaInput.InRange(
            AlphaMicrometresPerMetreKelvin, Expansion.LowestAlpha, Expansion.HighestAlpha, Expansion.AlphaUnit,
            $"{layer}.{nameof(AlphaMicrometresPerMetreKelvin)}");
    }
}
