using System.Diagnostics;
using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Influx;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using InfluxDB.Client;
using InfluxDB.Client.Api.Domain;
using Microsoft.Extensions.Logging.Abstractions;
using Cell = ClimateGuard.Plant.Cell;

namespace ClimateGuard.Benchmarks.InfluxAppend;

/// <summary>
/// <c>influx-append</c>: rows a second into a real influxd, through the store, beside a bare HttpClient that sends the same
/// lines made beforehand to <c>/write</c> (the ceiling), and through the spool on disk. Each round takes fresh event times.
/// </summary>
internal static class InfluxAppendBench
{
    private const int Rows = 400_000;
    private const int Series = 33;
    private const int Rounds = 3;
    private static long begin = 1_700_000_000_000;

    public static async Task RunAsync(string url, string door, string database)
    {
        var settings = new InfluxSettings { Url = door, Org = "any", Bucket = $"{database}/autogen", TimeoutSeconds = 60 };
        Console.WriteLine("| batch | bare HttpClient, lines made beforehand | the store | the client's points | the spool, InfluxDB down |");
        Console.WriteLine("| --- | --- | --- | --- | --- |");
        foreach (var batch in (int[])[100, 1_000, 5_000])
        {
            await RoundAsync(url, settings, batch);
        }
    }

    private static async Task RoundAsync(string url, InfluxSettings settings, int batch)
    {
        var (bare, store, points, spool) = (new List<double>(), new List<double>(), new List<double>(), new List<double>());
        for (var round = 0; round < Rounds; round++)
        {
            bare.Add(await BareAsync(url, settings.Bucket.Split('/')[0], batch));
            store.Add(await StoreAsync(settings, batch));
            points.Add(await PointsAsync(settings, batch));
            spool.Add(await StoreAsync(settings with { Url = "http://127.0.0.1:9" }, batch));
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"| {batch} | {Middle(bare)} | {Middle(store)} | {Middle(points)} | {Middle(spool)} |"));
    }

    private static async Task<double> BareAsync(string url, string database, int batch)
    {
        var bodies = Fresh().Chunk(batch).Select(rows =>
        {
            var text = new StringBuilder();
            foreach (var row in rows)
            {
                text.Append(CultureInfo.InvariantCulture, $"reading,cell=c,sensor=s{row.Raw.Sensor} value={row.Value} {row.Raw.EpochMilliseconds}000000\n");
            }

            return Encoding.UTF8.GetBytes(text.ToString());
        }).ToArray();
        using var http = new HttpClient();
        var clock = Stopwatch.StartNew();
        foreach (var body in bodies)
        {
            using var answer = await http.PostAsync($"{url}/write?db={database}", new ByteArrayContent(body));
            answer.EnsureSuccessStatusCode();
        }

        return Rows / clock.Elapsed.TotalSeconds;
    }

    private static async Task<double> StoreAsync(InfluxSettings settings, int batch)
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-bench-").FullName;
        var rows = Fresh();
        var store = InfluxReadings.Open(settings, folder, Shop(), TimeProvider.System, NullLogger.Instance);
        await store.AppendAsync(rows.AsMemory(0, 1), CancellationToken.None);
        var clock = Stopwatch.StartNew();
        for (var at = 0; at < Rows; at += batch)
        {
            await store.AppendAsync(rows.AsMemory(at, Math.Min(batch, Rows - at)), CancellationToken.None);
        }

        var rate = Rows / clock.Elapsed.TotalSeconds;
        await store.DisposeAsync();
        Directory.Delete(folder, recursive: true);
        return rate;
    }

    private static async Task<double> PointsAsync(InfluxSettings settings, int batch)
    {
        var rows = Fresh();
        using var client = new InfluxDBClient(settings.Url);
        var api = client.GetWriteApiAsync();
        var clock = Stopwatch.StartNew();
        foreach (var part in rows.Chunk(batch))
        {
            var points = part.Select(row => InfluxDB.Client.Writes.PointData.Measurement("reading").Tag("cell", "c")
                .Tag("sensor", $"s{row.Raw.Sensor}").Field("value", row.Value).Timestamp(row.Raw.EpochMilliseconds, WritePrecision.Ms)).ToList();
            await api.WritePointsAsync(points, settings.Bucket, settings.Org);
        }

        return Rows / clock.Elapsed.TotalSeconds;
    }

    private static TrustedReading[] Fresh()
    {
        begin += 1_000_000_000;
        return [.. Enumerable.Range(0, Rows).Select(n => new TrustedReading(
            new Reading(n % Series, begin + (n / Series * 1_000L), 20 + (n % 977 * 0.001)), 20 + (n % 977 * 0.001), Trust.Accepted, TrustReason.None))];
    }

    private static Cell Shop() => new(new CellDescription
    {
        Id = "c",
        Name = "c",
        Zones = [new Zone { Id = "z" }],
        Sensors = [.. Enumerable.Range(0, Series).Select(n => new Sensor { Id = $"s{n}", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air })],
    });

    private static string Middle(List<double> rates) => string.Create(
        CultureInfo.InvariantCulture, $"{rates.Order().ElementAt(rates.Count / 2) / 1000:0} ({rates.Min() / 1000:0}-{rates.Max() / 1000:0}) k/s");
}
