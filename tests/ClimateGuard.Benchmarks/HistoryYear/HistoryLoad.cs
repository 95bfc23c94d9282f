using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.HistoryYear;

/// <summary>Readings of invented sensors in time order: a day's swing, a slow drift and noise, at the resolution of real devices.</summary>
/// <remarks>A third send thousandths, a third hundredths, and a third quantise to a sixteenth of a kelvin; a fourth of all are calibrated.</remarks>
internal sealed class HistoryLoad(int sensors, int periodSeconds, DateTimeOffset begin)
{
    private readonly Random random = new(20260101);
    private readonly long start = begin.ToUnixTimeMilliseconds();
    private readonly double[] drift = new double[sensors];

    public Cell Cell { get; } = new(new CellDescription
    {
        Id = "c",
        Name = "c",
        Zones = [new Zone { Id = "z" }],
        Sensors = [.. Enumerable.Range(0, sensors).Select(n =>
            new Sensor { Id = $"s{n}", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air })],
    });

    /// <summary>Fills a batch from reading number <paramref name="first"/> on: all sensors in turn, then the next moment.</summary>
    public void Fill(Span<TrustedReading> batch, long first)
    {
        for (var n = 0; n < batch.Length; n++)
        {
            var (moment, sensor) = Math.DivRem(first + n, sensors);
            var time = start + (moment * periodSeconds * 1_000L);
            batch[n] = Reading((int)sensor, time);
        }
    }

    private TrustedReading Reading(int sensor, long time)
    {
        drift[sensor] = (drift[sensor] * 0.9999) + ((random.NextDouble() - 0.5) * 0.004);
        var day = Math.Sin((time % 86_400_000 / 86_400_000.0 * Math.Tau) + sensor);
        var value = 20 + (sensor % 5) + (1.5 * day) + drift[sensor] + ((random.NextDouble() - 0.5) * 0.02);
        var raw = (sensor % 3) switch
        {
            0 => Math.Round(value, 3),
            1 => Math.Round(value, 2),
            _ => Math.Round(value * 16) / 16,
        };
        return sensor % 4 == 0
            ? new TrustedReading(new Reading(sensor, time, raw), raw - 0.13, Trust.Corrected, TrustReason.Calibrated)
            : new TrustedReading(new Reading(sensor, time, raw), raw, Trust.Accepted, TrustReason.None);
    }
}
