namespace ClimateGuard.Thermal;

/// <summary>How a body answers a sinusoidal temperature.</summary>
/// <param name="Gain">The ratio of its amplitude to that of the driving temperature, in [0, 1].</param>
/// <param name="LagRadians">How far it runs behind, in rad, 0 or more.</param>
public readonly record struct PeriodicResponse(double Gain, double LagRadians)
{
    /// <summary>How far it runs behind, in degrees of the cycle.</summary>
    public double LagDegrees => LagRadians * 180 / Math.PI;
}
