using System.Diagnostics;
using System.Globalization;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>A day of the sample cell in five minutes: 33 sensors at 10 s and the jobs of six machines, through the real broker.</summary>
/// <remarks>
/// The worker runs on the wall clock, so the readings of a day bear stamps of now, close together; the air goes up and down once in the replay, as
/// in a day. Machines are evaluated on the way as they are in the shop, more often in fact, because the air moves so fast.
/// </remarks>
public sealed class SoakTests
{
    private const int ReadingsOfADay = 33 * 8640;

    private static readonly int Readings = FaultBench.Long ? ReadingsOfADay : ReadingsOfADay / 12;

    private static readonly TimeSpan HourLasts = TimeSpan.FromSeconds(FaultBench.Long ? 12 : 1);

    private static readonly string[] Parts = ["PC-620", "VP-210", "OB-900", "PH-340", "FD-1100", "BH-420", "LD-320", "VR-780"];

    [Fact]
    public async Task The_memory_stays_flat_over_the_readings_and_jobs_of_a_day()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerProcess();
        worker.StartRun(broker.Port);
        await worker.UntilReadyAsync();
        await using var shop = await MqttBystander.ConnectAsync(broker.Port);
        string[] sensors = [.. (await worker.GetAsync("/api/v1/sensors")).EnumerateArray()
            .Where(sensor => sensor.GetProperty("quantity").GetString() == "temperature").Select(sensor => sensor.GetProperty("id").GetString()!)];
        string[] machines = [.. (await worker.GetAsync("/api/v1/machines")).EnumerateArray().Select(machine => machine.GetProperty("id").GetString()!)];
        var memory = new List<double>();
        var clock = Stopwatch.StartNew();
        for (var part = 0; part < 24; part++)
        {
            await HourAsync(shop, sensors, machines, part);
            memory.Add(FaultBench.Megabytes(worker.Id));
        }

        var took = clock.Elapsed;
        FaultBench.Report($"| {Readings} readings, {24 * machines.Length} jobs in {took.TotalSeconds:0} s | MB by hour: {string.Join(", ", memory.Select(megabytes => megabytes.ToString("0", CultureInfo.InvariantCulture)))} |");
        var (early, late) = (memory[6..12].Max(), memory[18..].Min());
        Assert.True(late < early + 25, $"the memory grows: {string.Join(", ", memory)} MB");
        Assert.Contains((await worker.GetAsync("/api/v1/machines")).EnumerateArray(), machine => machine.GetProperty("seq").GetInt64() > 24);
        using var answer = await worker.Http.GetAsync("/health/ready");
        Assert.True(answer.IsSuccessStatusCode);
    }

    private static async Task HourAsync(MqttBystander shop, string[] sensors, string[] machines, int hour)
    {
        var clock = Stopwatch.StartNew();
        foreach (var machine in machines)
        {
            await shop.SendAsync($"cg/cell4/machine/{machine}/job", $$"""{"serial":"S{{hour}}","part":"{{Parts[hour % Parts.Length]}}","operation":"40","startC":20.4,"startU":0.1}""");
        }

        var rounds = Readings / 24 / sensors.Length;
        for (var round = 0; round < rounds; round++)
        {
            var time = DateTimeOffset.UtcNow.ToUnixTimeMilliseconds();
            var air = 20 + (0.8 * Math.Sin(((hour * rounds) + round) * Math.Tau / (24 * rounds)));
            await Task.WhenAll(sensors.Select((sensor, number) => shop.SendAsync(
                $"cg/cell4/reading/{sensor}",
                string.Create(CultureInfo.InvariantCulture, $"{{\"t\":{time},\"v\":{air + (number * 0.01):0.000},\"u\":\"C\"}}"))));
            var ahead = (HourLasts * (round + 1) / rounds) - clock.Elapsed;
            await Task.Delay(ahead > TimeSpan.Zero ? ahead : TimeSpan.Zero);
        }
    }
}
