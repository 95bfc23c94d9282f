using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Judges each reading: accept, correct, or set aside with the reason. Nothing is thrown away.</summary>
/// <remarks>Owned by the loop, not safe across threads; no allocation per reading.</remarks>
public sealed class SensorTrust
{
    /// <summary>A stamp may be so much later than now before the reading is set aside.</summary>
    public static readonly TimeSpan FutureAllowance = TimeSpan.FromSeconds(5);

    // What temperature transmitters send for an open, shorted or unpowered sensor (common practice, no source).
    private static readonly double[] Sentinels = [-242, -200, -127, -99.9, -999, -9999, 85, 850, 999, 999.9, 3276.7, 32767, 65535];

    private readonly Sensor[] sensors;

    /// <summary>Begins to judge the sensors of a cell.</summary>
    /// <param name="cell">The cell.</param>
    public SensorTrust(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        sensors = [.. cell.Sensors];
    }

    /// <summary>Judges the sensors of another version of the cell; what is remembered of a sensor of the same id and description goes along.</summary>
    /// <remarks>Nothing is remembered of a sensor as yet: each reading is judged by itself.</remarks>
    /// <param name="next">The other version.</param>
    public SensorTrust For(Cell next)
    {
        ArgumentNullException.ThrowIfNull(next);
        return sensors.SequenceEqual(next.Sensors) ? this : new(next);
    }

    /// <summary>Judges one reading.</summary>
    /// <param name="arrival">An arrival that is a reading of this cell.</param>
    public TrustedReading Judge(in Arrival arrival)
    {
        var reading = arrival.Reading;
        var sensor = sensors[reading.Sensor];
        if (arrival.Retained)
        {
            return new(reading, reading.Value, Trust.Quarantined, TrustReason.Retained);
        }

        if (reading.EpochMilliseconds > (arrival.ArrivedAt + FutureAllowance).ToUnixTimeMilliseconds())
        {
            return new(reading, reading.Value, Trust.Quarantined, TrustReason.FromTheFuture);
        }

        if (reading.Value < sensor.PlausibleLow || reading.Value > sensor.PlausibleHigh)
        {
            var reason = Array.IndexOf(Sentinels, reading.Value) >= 0 ? TrustReason.Sentinel : TrustReason.OutOfRange;
            return new(reading, reading.Value, Trust.Quarantined, reason);
        }

        var offset = OffsetAt(sensor, reading.EpochMilliseconds);
        return offset == 0
            ? new(reading, reading.Value, Trust.Accepted, TrustReason.None)
            : new(reading, reading.Value - offset, Trust.Corrected, TrustReason.Calibrated);
    }

    private static double OffsetAt(Sensor sensor, long epochMilliseconds)
    {
        var offset = 0.0;
        foreach (var calibration in sensor.Calibrations)
        {
            if (calibration.From.ToUnixTimeMilliseconds() > epochMilliseconds)
            {
                break;
            }

            offset = calibration.Offset;
        }

        return offset;
    }
}
