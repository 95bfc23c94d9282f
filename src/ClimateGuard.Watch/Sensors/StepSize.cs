using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Finds the step in which the values of a sensor really come: a staircase coarser than stated is told, not mistaken for a stuck sensor.</summary>
/// <remarks>Nothing looks at changes below this step. Only sensors of slow quantities are asked.</remarks>
internal sealed class StepSize(Sensor sensor)
{
    private const int Changes = 4;
    private const double StairLength = 5;
    private const double CoarserThanStated = 3;
    private const double LeastCoarse = 0.1;

    // The coarsest step in use for air; assumed until the sensor has shown its own (common practice, no source).
    private const double Unknown = 0.5;

    private readonly double coarse = Math.Max(LeastCoarse, Math.Max(2 * sensor.Uncertainty, CoarserThanStated * (sensor.Resolution ?? 0)));
    private readonly double[] sizes = new double[Changes];
    private readonly int[] lengths = new int[Changes];
    private readonly double stated = sensor.Resolution ?? Unknown;
    private double last = double.NaN;
    private int length;
    private int known;
    private int next;

    /// <summary>The smallest of the last four steps, in the unit of the values; what is stated or usual before there were four.</summary>
    public double Size => known < Changes ? stated : Math.Min(Math.Min(sizes[0], sizes[1]), Math.Min(sizes[2], sizes[3]));

    /// <summary>Whether the values are a staircase, coarser than the stated resolution and twice the uncertainty.</summary>
    public bool IsCoarse => known >= Changes && Size >= coarse && lengths[0] + lengths[1] + lengths[2] + lengths[3] >= StairLength * Changes;

    /// <summary>Takes the newest value as decoded.</summary>
    public void Take(double value)
    {
        length++;
        if (value == last)
        {
            return;
        }

        if (!double.IsNaN(last))
        {
            // Two values of one staircase may differ from its step in their last bits.
            (sizes[next], lengths[next]) = (Math.Round(Math.Abs(value - last), 6), length);
            next = (next + 1) % Changes;
            known = Math.Min(known + 1, Changes);
        }

        (last, length) = (value, 0);
    }
}
