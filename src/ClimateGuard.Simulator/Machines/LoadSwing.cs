namespace ClimateGuard.Simulator;

/// <summary>How the load of a running machine swings around its mean from cut to cut: chance with a memory of minutes.</summary>
internal sealed class LoadSwing(Chance chance, double scale)
{
    private const double StandardDeviation = 0.12;
    private const double MemorySeconds = 480;
    private double swing;

    /// <summary>Lets a step pass and gives the load as a share of the mean, in [0.4, 1.6].</summary>
    public double Next(double seconds)
    {
        // The exact step of an Ornstein-Uhlenbeck process, so that its size does not depend on the step.
        var kept = Math.Exp(-seconds / MemorySeconds);
        swing = (kept * swing) + (scale * StandardDeviation * Math.Sqrt(1 - (kept * kept)) * chance.Normal());
        return 1 + Math.Clamp(swing, -0.6, 0.6);
    }
}
