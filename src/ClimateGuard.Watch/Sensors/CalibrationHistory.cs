using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>The calibrations of one sensor, applied by event time: offset, uncertainty, and which physical sensor it was.</summary>
/// <remarks>
/// A change of the physical sensor is a change of the configuration, not of the temperature: for <see cref="Bridge"/> the uncertainty of the
/// calibration before is added, because the step between the two has the error of both. Immutable.
/// </remarks>
public sealed class CalibrationHistory
{
    /// <summary>For so long after a change of the physical sensor its readings count as less certain.</summary>
    public static readonly TimeSpan Bridge = TimeSpan.FromMinutes(30);

    private readonly Calibration[] calibrations;
    private readonly long[] from;
    private readonly double sensorUncertainty;

    /// <summary>Reads the calibrations of a sensor.</summary>
    /// <param name="sensor">The sensor.</param>
    public CalibrationHistory(Sensor sensor)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        calibrations = [.. sensor.Calibrations];
        from = [.. calibrations.Select(calibration => calibration.From.ToUnixTimeMilliseconds())];
        sensorUncertainty = sensor.Uncertainty;
    }

    /// <summary>What to take off a reading, in the canonical unit.</summary>
    /// <param name="epochMilliseconds">Event time.</param>
    public double OffsetAt(long epochMilliseconds) => IndexAt(epochMilliseconds) is var i and >= 0 ? calibrations[i].Offset : 0;

    /// <summary>The calibration in force, or null before the first.</summary>
    /// <param name="epochMilliseconds">Event time.</param>
    public Calibration? At(long epochMilliseconds) => IndexAt(epochMilliseconds) is var i and >= 0 ? calibrations[i] : null;

    /// <summary>Standard uncertainty (k = 1) of a reading in use, in the canonical unit: of the sensor, of its calibration, and of a change just made.</summary>
    /// <param name="epochMilliseconds">Event time.</param>
    public double UncertaintyAt(long epochMilliseconds)
    {
        var index = IndexAt(epochMilliseconds);
        if (index < 0)
        {
            return sensorUncertainty;
        }

        var square = (sensorUncertainty * sensorUncertainty) + (calibrations[index].Uncertainty * calibrations[index].Uncertainty);
        if (ChangedWithin(index, epochMilliseconds))
        {
            var before = index > 0 ? calibrations[index - 1].Uncertainty : sensorUncertainty;
            square += before * before;
        }

        return Math.Sqrt(square);
    }

    /// <summary>Whether the physical sensor or its calibration changed within <see cref="Bridge"/> before a moment.</summary>
    /// <param name="epochMilliseconds">Event time.</param>
    public bool HasJustChanged(long epochMilliseconds) => IndexAt(epochMilliseconds) is var i and >= 0 && ChangedWithin(i, epochMilliseconds);

    private bool ChangedWithin(int index, long epochMilliseconds) => epochMilliseconds - from[index] < Bridge.TotalMilliseconds;

    private int IndexAt(long epochMilliseconds)
    {
        var index = from.Length - 1;
        while (index >= 0 && from[index] > epochMilliseconds)
        {
            index--;
        }

        return index;
    }
}
