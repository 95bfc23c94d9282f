using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Sets single foreign values of one sensor aside, and believes a real step at its third reading in a row.</summary>
/// <remarks>
/// The floor of the <see cref="HampelFilter"/> is what the sensor could show after the largest sudden change its place may see, S·(1 − e^(−dt/τ)),
/// and no less than six standard uncertainties or three steps of its resolution. So a door, a pump or a new part passes; a spike of the
/// wiring does not. Where readings come far apart, one value cannot be told from a change, and the floor says so by growing.
/// </remarks>
internal sealed class SpikeWatch(Sensor sensor)
{
    /// <summary>So many readings of a new level in a row are believed; those before the last of them stay set aside.</summary>
    public const int BelievedAtReading = 3;

    private const int WindowLength = 11;
    private const int LeastInWindow = 5;
    private const double NoisyFrom = 0.2;
    private const double QuietAgainAt = 0.02;
    private const double ShareForgets = 1 / 64.0;

    private readonly double[] window = new double[WindowLength];
    private readonly double suddenChange = SuddenChange(sensor);
    private readonly double least = Math.Max(6 * sensor.Uncertainty, 3 * (sensor.Resolution ?? 0));
    private readonly double timeConstant = Math.Max(sensor.TimeConstant.TotalMilliseconds, 1000);
    private int count;
    private int next;
    private double newest;
    private long newestAt;
    private double pending;
    private int pendingCount;
    private double share;

    /// <summary>Whether a good part of its values are spikes.</summary>
    public bool IsNoisy { get; private set; }

    /// <summary>Takes the newest value of the sensor.</summary>
    /// <param name="value">The value.</param>
    /// <param name="at">Its event time in ms.</param>
    /// <returns>Whether it is a spike.</returns>
    public bool IsSpike(double value, long at)
    {
        if (double.IsNaN(suddenChange))
        {
            return false;
        }

        var floor = Floor(at - newestAt);
        var foreign = count >= LeastInWindow && Math.Abs(value - newest) > floor && HampelFilter.IsForeign(value, window.AsSpan(0, count), floor);
        if (foreign)
        {
            pendingCount = pendingCount > 0 && Math.Abs(value - pending) <= floor ? pendingCount + 1 : 1;
            pending = value;
            if (pendingCount < BelievedAtReading)
            {
                Count(1);
                return true;
            }

            count = next = 0;
        }

        pendingCount = 0;
        Count(0);
        Keep(value, at);
        return false;
    }

    /// <summary>Begins anew: another physical sensor, or a long silence.</summary>
    public void Forget() => count = next = pendingCount = 0;

    private void Keep(double value, long at)
    {
        window[next] = value;
        next = (next + 1) % WindowLength;
        count = Math.Min(count + 1, WindowLength);
        (newest, newestAt) = (value, at);
    }

    private void Count(int spike)
    {
        share += (spike - share) * ShareForgets;
        IsNoisy = IsNoisy ? share > QuietAgainAt : share > NoisyFrom;
    }

    private double Floor(long milliseconds) =>
        Math.Max(least, suddenChange * (1 - Math.Exp(-Math.Max(milliseconds, 1000) / timeConstant)));

    // The largest sudden change of what the sensor sits in (common practice, no source); NaN where jumps are the trade of the thing measured.
    private static double SuddenChange(Sensor sensor) => sensor.Quantity switch
    {
        SensorQuantity.Temperature => sensor.Place switch
        {
            SensorPlace.Air or SensorPlace.Scale or SensorPlace.Structure => 5,
            SensorPlace.Hall or SensorPlace.Outdoor or SensorPlace.Coolant or SensorPlace.Dielectric => 10,
            SensorPlace.Part or SensorPlace.Pallet or SensorPlace.Storage => 30,
            SensorPlace.Command => double.NaN,
            _ => 15,
        },
        SensorQuantity.RelativeHumidity => 30,
        _ => double.NaN,
    };
}
