namespace ClimateGuard.Thermal;

/// <summary>The pressure of the standard atmosphere.</summary>
public static class StandardAtmosphere
{
    /// <summary>The pressure at sea level, in Pa.</summary>
    public const double SeaLevelPascals = 101_325;

    /// <summary>The lowest total pressure accepted for moist air, in Pa (about 5 600 m).</summary>
    public const double LowestPascals = 50_000;

    /// <summary>The highest total pressure accepted for moist air, in Pa.</summary>
    public const double HighestPascals = 120_000;

    /// <summary>p = 101 325·(1 − 2.25577e-5·Z)^5.2559.</summary>
    /// <remarks>ASHRAE Handbook Fundamentals, chapter 1, equation 3 (from memory, checked against its table 1).</remarks>
    /// <param name="altitudeMetres">Z, in [-5 000, 11 000] m.</param>
    /// <returns>The pressure, in Pa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The altitude lies outside its range, or is not a number.</exception>
    public static double Pascals(double altitudeMetres)
    {
        FormulaInput.InRange(altitudeMetres, -5000, 11_000, "m");
        return SeaLevelPascals * Math.Pow(1 - (2.25577e-5 * altitudeMetres), 5.2559);
    }
}
