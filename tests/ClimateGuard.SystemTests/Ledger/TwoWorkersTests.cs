using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.Ledger;

/// <summary>Two workers on one folder: one decides, the other stands by, and a worker that was paused decides nothing afterwards.</summary>
public sealed class TwoWorkersTests
{
    [Fact]
    public async Task The_second_worker_stands_by_and_takes_over_from_one_that_is_paused_which_then_stops()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        var folder = Directory.CreateTempSubdirectory("climateguard-shared-").FullName;
        await using var first = new WorkerProcess(folder);
        await using var second = new WorkerProcess(folder);
        first.StartRun(broker.Port);
        await first.UntilReadyAsync();
        second.StartRun(broker.Port);

        await second.UntilLogAsync($"stands by and decides nothing: Process {first.Id} on {Environment.MachineName} (since ");
        await second.UntilLogAsync("pages at");
        using (var ready = await second.Http.GetAsync("/health/ready"))
        {
            Assert.Equal(HttpStatusCode.ServiceUnavailable, ready.StatusCode);
            Assert.Contains($"Process {first.Id} on", await ready.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        using (var refused = await second.Http.PostAsJsonAsync("/api/v1/events", new { type = "coolant", machine = "M3", on = true }))
        {
            Assert.Equal(HttpStatusCode.ServiceUnavailable, refused.StatusCode);
        }

        Assert.All((await second.GetAsync("/api/v1/machines")).EnumerateArray(), machine => Assert.True(
            machine.GetProperty("validUntil").GetDateTimeOffset() <= DateTimeOffset.UtcNow && machine.GetProperty("level").GetString() != "ready"));

        await first.SignalAsync("STOP");
        await second.UntilReadyAsync();
        await first.SignalAsync("CONT");
        await first.UntilLogAsync("This worker lost the lease and decides nothing");
        await first.UntilLogAsync($"stands by and decides nothing: Process {second.Id}");
        await Task.Delay(TimeSpan.FromSeconds(3));
        await second.UntilReadyAsync();

        using var status = Shell.Listen(broker.Port, "cg/cell4/worker/status");
        await status.UntilAsync(message => message.GetProperty("state").GetString() == "online", "online");

        // Who was paused before it had written it down leaves it to the next holder.
        await Eventually.UntilAsync(
            async () => (await LeasesAsync(second)).Any(content => content.TryGetProperty("refused", out var refused) && refused.GetProperty("process").GetInt32() == second.Id),
            "the ledger says that the second was refused");
        var leases = (await LeasesAsync(second)).Where(content => !content.TryGetProperty("refused", out _)).ToArray();
        Assert.Equal([2, 1], leases.Select(content => content.GetProperty("token").GetInt64()));
        Assert.Equal(JsonValueKind.Object, leases[0].GetProperty("took").ValueKind);

        await second.SignalAsync("TERM");
        await first.UntilReadyAsync();
    }

    private static async Task<JsonElement[]> LeasesAsync(WorkerProcess worker) =>
        [.. (await worker.GetAsync("/api/v1/ledger?kind=lease")).EnumerateArray().Select(line => line.GetProperty("content"))];

    [Fact]
    public async Task A_worker_that_stands_by_takes_over_with_the_plant_file_as_it_is_then_and_tells_of_it_once()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        var folder = Directory.CreateTempSubdirectory("climateguard-shared-").FullName;
        var plant = HandCell.Write();
        await using var first = new WorkerProcess(folder);
        await using var second = new WorkerProcess(folder);
        first.StartRun(broker.Port, plant);
        await first.UntilReadyAsync();
        second.StartRun(broker.Port, plant);
        await second.UntilLogAsync("stands by and decides nothing");

        await File.WriteAllTextAsync(plant, (await File.ReadAllTextAsync(plant)).Replace("budgetUm: 18", "budgetUm: 12", StringComparison.Ordinal));
        await first.UntilLogAsync(" is in force");
        await Task.Delay(TimeSpan.FromSeconds(3));
        var version = (await first.GetAsync("/api/v1/config")).GetProperty("version").GetString();
        Assert.NotEqual(version, (await second.GetAsync("/api/v1/config")).GetProperty("version").GetString());
        await first.SignalAsync("TERM");
        await second.UntilReadyAsync();

        Assert.Equal(version, (await second.GetAsync("/api/v1/config")).GetProperty("version").GetString());
        var kept = (await second.GetAsync("/api/v1/ledger?kind=config")).EnumerateArray().Select(line => line.GetProperty("content")).ToArray();
        Assert.Equal(2, kept.Length);
        Assert.Equal(["parts[DISC].features[holes].budgetUm: 18 → 12"], kept[0].GetProperty("differences").EnumerateArray().Select(one => one.GetString()));
        var lease = (await second.GetAsync("/api/v1/ledger?kind=lease")).EnumerateArray().First().GetProperty("content");
        Assert.Equal(version, lease.GetProperty("configVersion").GetString());
    }
}
