using System.Net;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>Telling people, with the program as built: the test message, and the figures about its own alarms.</summary>
public sealed class NotifyTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-notify-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Without_a_channel_it_says_what_to_set_and_exits_2()
    {
        var (code, output, errors) = await WorkerProcess.RunToEndAsync("notify", "test", "--settings", Settings("{}"));
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains("no channel is set up: Mail:Host or Webhook:Url is needed in the settings.", errors, StringComparison.Ordinal);

        (code, _, errors) = await WorkerProcess.RunToEndAsync("notify", "test", "--channel", "pigeon", "--settings", Settings("{}"));
        Assert.Equal(2, code);
        Assert.Contains("--channel pigeon: mail, webhook or all is allowed.", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_receiver_that_takes_it_gives_0_and_one_that_is_not_there_gives_1()
    {
        var port = MosquittoBroker.FreePort();
        var settings = Settings($$"""{ "Webhook": { "Url": "http://127.0.0.1:{{port}}/hook", "SecretFile": "{{Secret()}}" } }""");
        using (var receiver = new HttpListener())
        {
            receiver.Prefixes.Add($"http://127.0.0.1:{port}/");
            receiver.Start();
            var running = WorkerProcess.RunToEndAsync("notify", "test", "--channel", "webhook", "--settings", settings, "--json");
            var request = await receiver.GetContextAsync().WaitAsync(TimeSpan.FromSeconds(30));
            var body = await JsonSerializer.DeserializeAsync<JsonElement>(request.Request.InputStream);
            request.Response.Close();
            var (code, output, _) = await running;

            Assert.Equal(0, code);
            Assert.Equal("test", body.GetProperty("kind").GetString());
            Assert.StartsWith("TEST of ClimateGuard", body.GetProperty("subject").GetString(), StringComparison.Ordinal);
            var result = JsonSerializer.Deserialize<JsonElement>(output);
            Assert.True(result.GetProperty("channels")[0].GetProperty("sent").GetBoolean());
            Assert.Equal(result.GetProperty("key").GetString(), request.Request.Headers["Idempotency-Key"]);
        }

        var (failed, _, errors) = await WorkerProcess.RunToEndAsync("notify", "test", "--settings", settings);
        Assert.Equal(1, failed);
        Assert.Contains($"webhook: http://127.0.0.1:{port}/hook cannot be reached", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_figures_about_its_own_alarms_and_the_metrics_answer()
    {
        await using var demo = new WorkerProcess();
        demo.StartDemo(speed: 600);
        await demo.UntilReadyAsync();

        using var answer = await demo.Http.GetAsync("/metrics");
        var text = await answer.Content.ReadAsStringAsync();
        Assert.Equal("application/openmetrics-text; version=1.0.0; charset=utf-8", answer.Content.Headers.ContentType!.ToString());
        Assert.EndsWith("\n# EOF\n", text, StringComparison.Ordinal);
        Assert.Contains("\nclimateguard_broker_connected 1\n", text, StringComparison.Ordinal);
        Assert.Contains("\nclimateguard_readings_total{outcome=\"accepted\"} ", text, StringComparison.Ordinal);
        Assert.Contains("\n# UNIT climateguard_store_size_bytes bytes\n", text, StringComparison.Ordinal);

        var figures = await demo.GetAsync("/api/v1/alarms/figures");
        Assert.False(figures.GetProperty("enoughEvidence").GetBoolean());
        var flood = figures.GetProperty("figures").EnumerateArray().Single(figure => figure.GetProperty("name").GetString() == "alarmsInLastTenMinutes");
        Assert.Equal(10, flood.GetProperty("acceptable").GetDouble());
        Assert.Contains("ISA-18.2", flood.GetProperty("source").GetString(), StringComparison.Ordinal);
        Assert.Equal(0, (await demo.GetAsync("/api/v1/alarms/channels")).GetArrayLength());
    }

    private string Settings(string json)
    {
        var file = Path.Combine(folder, "settings.json");
        File.WriteAllText(file, json);
        return file;
    }

    private string Secret()
    {
        var file = Path.Combine(folder, "secret");
        File.WriteAllText(file, "0123456789abcdef");
        return file;
    }
}
