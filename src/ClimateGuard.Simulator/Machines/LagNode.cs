namespace ClimateGuard.Simulator;

/// <summary>A first-order node: it follows what drives it with one time constant, exactly for a drive that is constant over the step.</summary>
public sealed class LagNode
{
    private readonly double seconds;
    private double lastStep = double.NaN;
    private double share;

    /// <summary>A node at a start value.</summary>
    public LagNode(TimeSpan timeConstant, double start)
    {
        seconds = Math.Max(timeConstant.TotalSeconds, 1e-3);
        Value = start;
    }

    /// <summary>The value now.</summary>
    public double Value { get; set; }

    /// <summary>Lets a step pass under one drive.</summary>
    public void Advance(double drive, double stepSeconds)
    {
        if (stepSeconds != lastStep)
        {
            share = -Math.Exp(-stepSeconds / seconds) + 1.0;
            lastStep = stepSeconds;
        }

        Value += (drive - Value) * share;
    }
}
