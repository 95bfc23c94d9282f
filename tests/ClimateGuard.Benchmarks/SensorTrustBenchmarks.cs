using BenchmarkDotNet.Attributes;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks;

/// <summary>Judging one reading of one of 10 000 air sensors in 1 000 zones: at most 1 µs and 0 B, the passes of each minute included.</summary>
[MemoryDiagnoser]
public class SensorTrustBenchmarks
{
    private const int Sensors = 10_000;
    private readonly double[] noise = new double[4096];
    private SensorTrust trust = null!;
    private DateTimeOffset now = new(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);
    private int next;
    private int tick;

    [GlobalSetup]
    public void Begin()
    {
        trust = new SensorTrust(new Cell(new CellDescription
        {
            Id = "big",
            Name = "big",
            Zones = [.. Enumerable.Range(0, Sensors / 10).Select(n => new Zone { Id = $"z{n}" })],
            Sensors = [.. Enumerable.Range(0, Sensors).Select(n => new Sensor
            {
                Id = $"air/{n}", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air, Zone = $"z{n / 10}", HeightMetres = 1.5, Uncertainty = 0.05,
            })],
        }));
        var chance = new Random(1);
        for (var i = 0; i < noise.Length; i++)
        {
            noise[i] = Math.Round(0.1 * (chance.NextDouble() - 0.5), 2);
        }

        for (var i = 0; i < 60 * Sensors; i++)
        {
            _ = JudgeOne();
        }
    }

    /// <summary>One reading; the clock goes on by ten seconds after each has spoken, so that every 60 000th is followed by the passes.</summary>
    [Benchmark]
    public TrustedReading JudgeOne()
    {
        if (next == Sensors)
        {
            (next, now) = (0, now.AddSeconds(10));
        }

        var value = 20 + noise[tick++ & 4095];
        return trust.Judge(new Arrival { Reading = new Reading(next++, now.ToUnixTimeMilliseconds(), value), ArrivedAt = now });
    }
}
