namespace ClimateGuard.Evidence;

/// <summary>A measured hole of a pattern, at 20 °C and in the datum frame of the part; equality is by value.</summary>
/// <param name="X">Nominal place along the first axis from the datum, in mm.</param>
/// <param name="Y">Nominal place along the second axis from the datum, in mm.</param>
/// <param name="Dx">Measured minus nominal along the first axis, in µm.</param>
/// <param name="Dy">Measured minus nominal along the second axis, in µm.</param>
public readonly record struct HoleDeviation(double X, double Y, double Dx, double Dy);
