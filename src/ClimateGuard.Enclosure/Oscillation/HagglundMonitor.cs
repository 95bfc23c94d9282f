namespace ClimateGuard.Enclosure;

/// <summary>Counts load disturbances of a control loop and tells when they come too often to be chance.</summary>
/// <remarks>
/// Hägglund, A control-loop performance monitor, Control Engineering Practice 3 (1995) 1543; formulas from memory. A half period whose integral of
/// |e| exceeds IAE_lim = a·Ti/π counts; x ← λx + 1 then, with λ = 1 − dt/T_sup and T_sup = 50·Ti. Not safe across threads.
/// </remarks>
public sealed class HagglundMonitor
{
    /// <summary>More than so many disturbances within the supervision time are an oscillation.</summary>
    public const double CountLimit = 10;

    private readonly double seconds;
    private double area;
    private double lastError;

    /// <summary>A monitor.</summary>
    /// <param name="integralSeconds">Integral time of the controller, above 0.</param>
    /// <param name="amplitude">a: 1 % of the signal range, in the unit of the error.</param>
    /// <param name="seconds">Time between errors.</param>
    public HagglundMonitor(double integralSeconds, double amplitude, double seconds)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(integralSeconds);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(amplitude);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(seconds);
        this.seconds = seconds;
        AreaLimit = amplitude * integralSeconds / Math.PI;
        Forgetting = Math.Max(0, 1 - (seconds / (50 * integralSeconds)));
    }

    /// <summary>IAE_lim, in unit × s.</summary>
    public double AreaLimit { get; }

    /// <summary>λ, per step.</summary>
    public double Forgetting { get; }

    /// <summary>The recursive count.</summary>
    public double Count { get; private set; }

    /// <summary>Whether the loop oscillates.</summary>
    public bool Oscillates => Count > CountLimit;

    /// <summary>Takes the next error.</summary>
    public void Add(double error)
    {
        Count *= Forgetting;
        if (lastError != 0 && Math.Sign(error) != Math.Sign(lastError))
        {
            if (area > AreaLimit) Count++;
            area = 0;
        }

        area += Math.Abs(error) * seconds;
        if (error != 0) lastError = error;
    }
}
