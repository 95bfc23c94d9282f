using System.Globalization;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.Influx;

/// <summary>The real program with InfluxDB as its store: from the broker into influxd and back over HTTP, also through an outage and a kill.</summary>
public sealed class InfluxWorkerTests
{
    [Fact]
    public async Task Readings_go_from_the_broker_into_influxd_and_come_back_over_http()
    {
        await using var server = await InfluxServer.StartNewAsync();
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerProcess();
        var settings = await server.NewDatabaseAsync();
        worker.StartRun(
            broker.Port, HandCell.Write(), "127.0.0.1", ("Storage__Kind", "influx"), ("Influx__Url", settings.Url), ("Influx__Org", "any"),
            ("Influx__Bucket", settings.Bucket), ("Influx__TimeoutSeconds", "2"));
        await worker.UntilReadyAsync();
        var begin = DateTimeOffset.UtcNow.ToUnixTimeMilliseconds() - 60_000;

        await PublishAsync(broker, begin, 0, 5);
        await UntilPointsAsync(worker, begin, 5);

        await server.KillAsync();
        await PublishAsync(broker, begin, 5, 10);
        await UntilMetricAsync(worker, "climateguard_spool_batches", value => value >= 1);
        using (var refused = await worker.Http.GetAsync(Series(begin)))
        {
            Assert.Equal(System.Net.HttpStatusCode.ServiceUnavailable, refused.StatusCode);
            Assert.Contains("Is it running, and is Influx:Url right?", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        await worker.KillAsync();
        worker.StartAgain();
        await worker.UntilReadyAsync();
        await server.StartAsync();
        await UntilPointsAsync(worker, begin, 10);
        await UntilMetricAsync(worker, "climateguard_spool_batches", value => value == 0);
        var rows = await server.AskAsync("SELECT count(\"value\") FROM \"reading\" WHERE \"sensor\" = 'air/a1'", settings.Bucket.Split('/')[0]);
        Assert.Equal(10, rows[0][1].GetInt32());
    }

    [Fact]
    public async Task Settings_that_cannot_work_are_refused_before_the_start_with_the_line_to_mend()
    {
        var file = Path.GetTempFileName();
        await File.WriteAllTextAsync(file, """{ "Storage": { "Kind": "influx" }, "Influx": { "Url": "http://192.0.2.10:8086", "Org": "shop" } }""");
        var (code, _, errors) = await WorkerProcess.RunToEndAsync("check", "--plant", HandCell.Write(), "--settings", file);
        Assert.Equal(2, code);
        Assert.Contains("Write \"Url\": \"https://192.0.2.10:8086\"", errors, StringComparison.Ordinal);
        Assert.Contains("Influx:Bucket is empty", errors, StringComparison.Ordinal);
        File.Delete(file);
    }

    private static async Task PublishAsync(MosquittoBroker broker, long begin, int from, int to)
    {
        for (var n = from; n < to; n++)
        {
            await Shell.PublishAsync(
                broker.Port, "cg/hand/reading/air/a1",
                string.Create(CultureInfo.InvariantCulture, $$"""{"t":{{begin + (n * 1_000)}},"v":{{20 + (n * 0.1)}},"u":"C"}"""));
        }
    }

    private static string Series(long begin) =>
        string.Create(CultureInfo.InvariantCulture, $"/api/v1/series?sensor=air/a1&from={begin}&to={begin + 60_000}&points=100");

    private static async Task UntilPointsAsync(WorkerProcess worker, long begin, int count)
    {
        var found = "";
        for (var patience = 0; patience < 300; patience++)
        {
            using var answer = await worker.Http.GetAsync(Series(begin));
            found = await answer.Content.ReadAsStringAsync();
            if (answer.IsSuccessStatusCode)
            {
                var points = JsonSerializer.Deserialize<JsonElement>(found).GetProperty("points").EnumerateArray().Select(point => (point[0].GetInt64(), point[1].GetDouble()));
                if (points.SequenceEqual(Enumerable.Range(0, count).Select(n => (begin + (n * 1_000), 20 + (n * 0.1)))))
                {
                    return;
                }
            }

            await Task.Delay(100);
        }

        Assert.Fail($"{found}\n{worker.Log}");
    }

    private static async Task UntilMetricAsync(WorkerProcess worker, string name, Func<double, bool> wanted)
    {
        var text = "";
        for (var patience = 0; patience < 300; patience++)
        {
            text = await worker.Http.GetStringAsync("/metrics");
            var line = text.Split('\n').SingleOrDefault(line => line.StartsWith(name + " ", StringComparison.Ordinal));
            if (line is not null && wanted(double.Parse(line.Split(' ')[1], CultureInfo.InvariantCulture)))
            {
                return;
            }

            await Task.Delay(100);
        }

        Assert.Fail($"{name}: {text}\n{worker.Log}");
    }
}
