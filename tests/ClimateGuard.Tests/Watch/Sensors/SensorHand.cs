using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Sensors;

/// <summary>Sends readings by hand, every ten seconds unless told otherwise, with a noise of a few hundredths that repeats.</summary>
internal sealed class SensorHand
{
    private static readonly double[] Noise = [0.00, 0.02, -0.01, 0.03, -0.02, 0.01, -0.03, 0.02, 0.00, -0.02];

    private readonly Dictionary<string, int> said = new(StringComparer.Ordinal);

    public SensorHand(Cell cell)
    {
        Cell = cell;
        Trust = new SensorTrust(cell);
        Now = new DateTimeOffset(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);
    }

    public Cell Cell { get; }

    public SensorTrust Trust { get; }

    public DateTimeOffset Now { get; set; }

    public static Sensor Air(string id) => new()
    {
        Id = id, Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air, Zone = "main", HeightMetres = 1.5, Uncertainty = 0.05,
    };

    public static SensorHand With(params Sensor[] sensors) => new(new Cell(new CellDescription
    {
        Id = "hand", Name = "Hand", Zones = [new Zone { Id = "main" }], Sensors = [.. sensors],
    }));

    public TrustedReading Say(string sensor, double value, TimeSpan ahead = default, long sequence = -1) => Trust.Judge(new Arrival
    {
        Reading = new Reading(Cell.IndexOfSensor(sensor), (Now + ahead).ToUnixTimeMilliseconds(), value, sequence), ArrivedAt = Now,
    });

    /// <summary>A value with its noise.</summary>
    public double Near(string sensor, double value)
    {
        var n = said.GetValueOrDefault(sensor);
        said[sensor] = n + 1;
        return Math.Round(value + Noise[(n + sensor.Length) % Noise.Length], 2);
    }

    /// <summary>All sensors say so much, with noise, so many times, ten seconds apart.</summary>
    public void Go(int times, params (string Sensor, Func<int, double?> Value)[] series)
    {
        for (var n = 0; n < times; n++)
        {
            Now += TimeSpan.FromSeconds(10);
            foreach (var (sensor, value) in series)
            {
                if (value(n) is { } says)
                {
                    Say(sensor, Near(sensor, says));
                }
            }
        }
    }

    public IEnumerable<TrustReason> Conditions(string sensor) => Trust.ConditionsOf(Cell.IndexOfSensor(sensor)).Select(condition => condition.Cause);
}
