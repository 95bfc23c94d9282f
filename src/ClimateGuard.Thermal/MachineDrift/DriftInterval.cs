namespace ClimateGuard.Thermal;

/// <summary>A range of values, both ends included, in the unit of the member that carries it.</summary>
/// <param name="Low">The lower end.</param>
/// <param name="High">The upper end.</param>
public readonly record struct DriftInterval(double Low, double High)
{
    /// <summary>Whether a value lies in it.</summary>
    public bool Contains(double value) => value >= Low && value <= High;
}
