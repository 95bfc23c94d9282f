namespace ClimateGuard.Simulator;

/// <summary>What lies between the asked and the delivered supply temperature: a transport delay and a first-order lag.</summary>
public sealed class SupplyDuct
{
    private readonly double[] inTransit;
    private readonly double share;
    private int next;

    /// <summary>A duct filled with air of one temperature.</summary>
    /// <param name="delay">Transport delay.</param>
    /// <param name="lag">Time constant of coil and duct.</param>
    /// <param name="step">Time between two calls of <see cref="Pass"/>.</param>
    /// <param name="startCelsius">The temperature it starts at, in °C.</param>
    public SupplyDuct(TimeSpan delay, TimeSpan lag, TimeSpan step, double startCelsius)
    {
        inTransit = new double[Math.Max(1, (int)Math.Round(delay / step))];
        Array.Fill(inTransit, startCelsius);
        share = step / lag;
        Celsius = startCelsius;
    }

    /// <summary>What leaves the duct, in °C.</summary>
    public double Celsius { get; private set; }

    /// <summary>Lets one step pass with the asked temperature entering, in °C.</summary>
    public void Pass(double askedCelsius)
    {
        var arriving = inTransit[next];
        inTransit[next] = askedCelsius;
        next = (next + 1) % inTransit.Length;
        Celsius += (arriving - Celsius) * share;
    }
}
