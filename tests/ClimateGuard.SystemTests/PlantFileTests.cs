using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>The plant file is edited while the real program runs and readings flow.</summary>
public sealed class PlantFileTests
{
    private const string NewSensors = """
          - { id: air/b1, quantity: temperature, place: hall, topic: elsewhere/b1 }
          - { id: air/b2, quantity: temperature, place: hall }
          - { id: air/a1, quantity: temperature, place: air, zone: main }
        """;

    private const string OldSensor = "  - { id: air/a1, quantity: temperature, place: air, zone: main }";

    [Fact]
    public async Task A_bad_file_is_refused_with_its_line_and_a_good_one_applied_without_losing_a_reading()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        var plant = HandCell.Write();
        var original = await File.ReadAllTextAsync(plant);
        await using var worker = new WorkerProcess();
        worker.StartRun(broker.Port, plant);
        await worker.UntilReadyAsync();
        var first = (await worker.GetAsync("/api/v1/config")).GetProperty("version").GetString()!;
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port, "cg/hand/#");
        using var ending = new CancellationTokenSource();
        var flow = FlowAsync(broker.Port, ending.Token);

        await WriteAsync(plant, original.Replace("scale: { alpha: 11.5 }", "scale: { alpha: 11.5e-6 }", StringComparison.Ordinal));
        var (_, alert, _) = await bystander.WaitForAsync(
            message => message.Topic == "cg/hand/alert" && message.Payload.Contains("plant file refused", StringComparison.Ordinal), "the refusal");
        var line = original[..original.IndexOf("scale:", StringComparison.Ordinal)].Count(letter => letter == '\n') + 1;
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"plant.yaml:{line}:"), alert, StringComparison.Ordinal);
        var refused = await worker.GetAsync("/api/v1/config");
        Assert.Equal(first, refused.GetProperty("version").GetString());
        Assert.Single(refused.GetProperty("refused").GetProperty("problems").EnumerateArray());
        Assert.Contains("The changed plant file is refused", await worker.Http.GetStringAsync("/"), StringComparison.Ordinal);

        await WriteAsync(plant, original.Replace(OldSensor, NewSensors, StringComparison.Ordinal));
        var second = await UntilVersionAsync(worker, version => version != first);
        await bystander.WaitForAsync(
            message => message.Topic == "cg/hand/worker/status" && message.Payload.Contains(second, StringComparison.Ordinal), "the new version on the status topic");
        await using var newcomer = await MqttBystander.ConnectAsync(broker.Port);
        for (var i = 0; i < 50; i++)
        {
            await newcomer.SendAsync("elsewhere/b1", Reading(i));
            await newcomer.SendAsync("cg/hand/reading/air/b2", Reading(i));
        }

        await Task.Delay(500);
        await ending.CancelAsync();
        var sent = await flow;
        Assert.True(sent > 1000, $"{sent} readings are no flow");
        await UntilStoredAsync(worker, sent + 100);
        Assert.Equal((sent, 50, 50), (await StoredAsync(worker, "air/a1"), await StoredAsync(worker, "air/b1"), await StoredAsync(worker, "air/b2")));
        Assert.Contains("climateguard_unreadable_messages_total 0\n", await worker.Http.GetStringAsync("/metrics"), StringComparison.Ordinal);
        Assert.Contains("climateguard_config_refused 0\n", await worker.Http.GetStringAsync("/metrics"), StringComparison.Ordinal);

        var kept = await ConfigLinesAsync(worker);
        Assert.Equal(2, kept.Length);
        Assert.Equal((first, second), (kept[0].GetProperty("before").GetString(), kept[0].GetProperty("configVersion").GetString()));
        Assert.Equal(
            ["sensors[air/b1]: added", "sensors[air/b2]: added"], kept[0].GetProperty("differences").EnumerateArray().Select(one => one.GetString()));
        Assert.Equal(await File.ReadAllTextAsync(plant), kept[0].GetProperty("text").GetString());
        Assert.StartsWith("owner ", kept[0].GetProperty("by").GetString(), StringComparison.Ordinal);

        await worker.KillAsync();
        worker.StartAgain();
        await worker.UntilReadyAsync();
        Assert.Equal(second, (await worker.GetAsync("/api/v1/config")).GetProperty("version").GetString());
        Assert.Equal(2, (await ConfigLinesAsync(worker)).Length);
        await newcomer.SendAsync("elsewhere/b1", Reading(100));
        await UntilStoredAsync(worker, sent + 101);
        Assert.Equal(0, (await worker.LedgerVerifyAsync()).ExitCode);
    }

    [Fact]
    public async Task A_machine_that_is_taken_out_loses_its_permit_and_comes_back_with_the_old_file_out_of_the_ledger()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        var plant = HandCell.Write();
        var original = await File.ReadAllTextAsync(plant);
        await using var worker = new WorkerProcess();
        worker.StartRun(broker.Port, plant);
        await worker.UntilReadyAsync();
        var first = (await worker.GetAsync("/api/v1/config")).GetProperty("version").GetString()!;
        await Shell.PublishAsync(broker.Port, "cg/hand/reading/air/a1", "20.0");
        await worker.PostAsync("/api/v1/machines/M1/job", """{"serial":"S1","part":"DISC","operation":"40","startC":20.0,"startU":0.1}""");
        var (_, answer) = await worker.PostAsync("/api/v1/permits", """{"machine":"M1","serial":"S1","part":"DISC","operation":"40","requestId":"r1"}""");
        Assert.Equal("GO", answer.GetProperty("answer").GetString());
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port, "cg/hand/#");

        await WriteAsync(plant, original.Replace("id: M1", "id: M2", StringComparison.Ordinal));
        await UntilVersionAsync(worker, version => version != first);

        await bystander.WaitForAsync(
            message => message.Topic == "cg/hand/machine/M1/outlook" && message.Payload.Contains("taken out of the plant file", StringComparison.Ordinal), "the last outlook of M1");
        var permit = (await worker.GetAsync("/api/v1/ledger?kind=permit")).EnumerateArray().First().GetProperty("content");
        Assert.Equal(("revoked", first), (permit.GetProperty("state").GetString(), permit.GetProperty("configVersion").GetString()));
        Assert.Contains("has no machine", await worker.Http.GetStringAsync("/machine/M1"), StringComparison.Ordinal);
        Assert.Equal("M2", (await worker.GetAsync("/api/v1/machines")).EnumerateArray().Single().GetProperty("id").GetString());

        var (exit, old, _) = await worker.RunOnFolderAsync("config", "show", "--version-id", first);
        Assert.Equal((0, original), (exit, old));
        File.Delete(plant);
        await bystander.WaitForAsync(message => message.Payload.Contains("there is no file", StringComparison.Ordinal), "the missing file");
        await WriteAsync(plant, old);
        Assert.Equal(first, await UntilVersionAsync(worker, version => version == first));
        await worker.PostAsync("/api/v1/machines/M1/job", """{"serial":"S2","part":"DISC","operation":"40","startC":20.0,"startU":0.1}""");
        var (_, next) = await worker.PostAsync("/api/v1/permits", """{"machine":"M1","serial":"S2","part":"DISC","operation":"40","requestId":"r2"}""");
        Assert.NotEqual(answer.GetProperty("permitId").GetString(), next.GetProperty("permitId").GetString());
        Assert.Equal(0, (await worker.LedgerVerifyAsync()).ExitCode);
    }

    private static string Reading(int millisecond) => string.Create(
        CultureInfo.InvariantCulture, $$"""{"t":{{DateTimeOffset.UtcNow.ToUnixTimeMilliseconds() - 5000 + millisecond}},"v":20.0}""");

    /// <summary>About 500 readings a second with a time of their own each, until it is cancelled; gives how many the broker took.</summary>
    private static async Task<int> FlowAsync(int port, CancellationToken cancellation)
    {
        await using var sensor = await MqttBystander.ConnectAsync(port);
        var (clock, begin, sent) = (Stopwatch.StartNew(), DateTimeOffset.UtcNow.ToUnixTimeMilliseconds(), 0);
        while (!cancellation.IsCancellationRequested)
        {
            for (; sent < clock.ElapsedMilliseconds / 2; sent++)
            {
                await sensor.SendAsync("cg/hand/reading/air/a1", string.Create(CultureInfo.InvariantCulture, $$"""{"t":{{begin + (2 * sent)}},"v":20.0}"""));
            }

            await Task.Delay(5, CancellationToken.None);
        }

        return sent;
    }

    /// <summary>As an editor does: in two pieces into a new file, which then takes the place of the old one.</summary>
    private static async Task WriteAsync(string plant, string text)
    {
        await File.WriteAllTextAsync(plant + ".new", text[..(text.Length / 2)]);
        await File.AppendAllTextAsync(plant + ".new", text[(text.Length / 2)..]);
        File.Move(plant + ".new", plant, overwrite: true);
    }

    private static async Task<string> UntilVersionAsync(WorkerProcess worker, Func<string, bool> wanted)
    {
        var patience = Stopwatch.StartNew();
        while (true)
        {
            var version = (await worker.GetAsync("/api/v1/config")).GetProperty("version").GetString()!;
            if (wanted(version))
            {
                return version;
            }

            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(20), $"version {version} stays: {worker.Log}");
            await Task.Delay(50);
        }
    }

    private static async Task UntilStoredAsync(WorkerProcess worker, int rows)
    {
        var patience = Stopwatch.StartNew();
        while (!(await worker.Http.GetStringAsync("/metrics")).Contains($"climateguard_store_rows {rows}\n", StringComparison.Ordinal))
        {
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(20), $"not {rows} rows: {await worker.Http.GetStringAsync("/metrics")}");
            await Task.Delay(100);
        }
    }

    private static async Task<int> StoredAsync(WorkerProcess worker, string sensor)
    {
        var (from, to) = (DateTimeOffset.UtcNow.AddHours(-1), DateTimeOffset.UtcNow.AddHours(1));
        var series = await worker.GetAsync($"/api/v1/series?sensor={sensor}&from={from.UtcDateTime:O}&to={to.UtcDateTime:O}&points=20000");
        return series.GetProperty("points").GetArrayLength();
    }

    private static async Task<JsonElement[]> ConfigLinesAsync(WorkerProcess worker) =>
        [.. (await worker.GetAsync("/api/v1/ledger?kind=config")).EnumerateArray().Select(line => line.GetProperty("content"))];
}
