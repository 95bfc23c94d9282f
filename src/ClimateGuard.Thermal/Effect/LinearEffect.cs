namespace ClimateGuard.Thermal;

/// <summary>An effect near one state as a linear function: length·eps + x·Dx + y·Dy + z·Dz.</summary>
/// <remarks>eps in µm/m, drift in µm, the effect in µm. Equality by members; immutable.</remarks>
/// <param name="LengthMetres">What one µm/m of mismatch gives, in m.</param>
/// <param name="X">What one µm of drift in X gives.</param>
/// <param name="Y">What one µm of drift in Y gives.</param>
/// <param name="Z">What one µm of drift in Z gives.</param>
public readonly record struct LinearEffect(double LengthMetres, double X, double Y, double Z)
{
    /// <summary>The effect in µm.</summary>
    public double At(double epsMicrometresPerMetre, double driftX, double driftY, double driftZ) =>
        (LengthMetres * epsMicrometresPerMetre) + (X * driftX) + (Y * driftY) + (Z * driftZ);
}
