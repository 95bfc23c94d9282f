namespace ClimateGuard.Enclosure;

/// <summary>What was told at one step, until it has come due.</summary>
internal sealed class Telling(int values, int horizons)
{
    /// <summary>The step; less than any when nothing is told.</summary>
    public long Step { get; private set; } = long.MinValue;

    /// <summary>The regime then.</summary>
    public Regime Regime { get; private set; }

    /// <summary>Whether its errors count.</summary>
    public bool Counts { get; private set; }

    /// <summary>The air told by horizon and rung, °C; NaN where a rung told nothing.</summary>
    public double[] Celsius { get; } = new double[values];

    /// <summary>The rung shown at each horizon, and its interval around the value, K.</summary>
    public (AirModelKind Model, double Low, double High)[] Shown { get; } = new (AirModelKind, double, double)[horizons];

    public void Begin(long step, Regime regime, bool counts)
    {
        (Step, Regime, Counts) = (step, regime, counts);
        Array.Fill(Celsius, double.NaN);
    }

    public void Forget() => Step = long.MinValue;
}
