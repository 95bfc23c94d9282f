namespace ClimateGuard.Thermal;

/// <summary>Position of a hole or pin against its zone.</summary>
public static class TruePosition
{
    /// <summary>2·√(dx² + dy²): the diameter of the smallest zone about the true place that holds the axis.</summary>
    /// <remarks>ASME Y14.5-2018 section 10, ISO 1101 (from memory). Forgetting the 2 is the commonest slip.</remarks>
    /// <param name="dx">Deviation along the first axis, in mm (or any one unit for both).</param>
    /// <param name="dy">Deviation along the second axis, in the same unit.</param>
    /// <returns>The diametral position, in the same unit, 0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double Diametral(double dx, double dy)
    {
        FormulaInput.Finite(dx, "");
        FormulaInput.Finite(dy, "");
        return 2 * Math.Sqrt((dx * dx) + (dy * dy));
    }
}
