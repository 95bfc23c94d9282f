namespace ClimateGuard.Simulator;

/// <summary>A proportional-integral loop on zone air that asks for a supply temperature, with limits and anti-windup.</summary>
/// <remarks>v = bias + K·e + I, dI/dt = K·e/Ti; what a limit cuts off is taken back out of I within a minute (back-calculation).</remarks>
public sealed class PiLoop
{
    private const double TrackingSeconds = 60.0;
    private readonly double biasCelsius;
    private double integralKelvin;

    /// <summary>A loop that asks for the bias when there is no error.</summary>
    public PiLoop(double biasCelsius, double gain, TimeSpan integralTime)
    {
        this.biasCelsius = biasCelsius;
        Gain = gain;
        IntegralTime = integralTime;
    }

    /// <summary>K, kelvins of supply temperature per kelvin of error.</summary>
    public double Gain { get; set; }

    /// <summary>Ti.</summary>
    public TimeSpan IntegralTime { get; set; }

    /// <summary>Whether a limit stops the integral; without it the integral winds up during a long set-back or a stopped fan.</summary>
    public bool AntiWindup { get; set; } = true;

    /// <summary>The supply temperature asked for, in °C, within the limits.</summary>
    /// <param name="errorKelvin">Set point minus air, in K.</param>
    /// <param name="lowCelsius">The coldest supply, in °C.</param>
    /// <param name="highCelsius">The warmest supply, in °C.</param>
    /// <param name="seconds">Time since the last call, in s.</param>
    public double Update(double errorKelvin, double lowCelsius, double highCelsius, double seconds)
    {
        var asked = biasCelsius + (Gain * errorKelvin) + integralKelvin;
        var given = Math.Clamp(asked, lowCelsius, highCelsius);
        var takenBack = AntiWindup ? (given - asked) * Math.Min(1.0, seconds / TrackingSeconds) : 0;
        integralKelvin += (Gain * errorKelvin * seconds / IntegralTime.TotalSeconds) + takenBack;
        return given;
    }
}
