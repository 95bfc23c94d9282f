using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.SystemTests.History;

/// <summary>The real worker on a small disk of its own that is filled and emptied under it.</summary>
public sealed class FullDiskTests
{
    [Fact]
    public async Task On_a_full_disk_readings_stop_being_kept_and_answers_and_the_ledger_go_on_and_it_recovers_by_itself()
    {
        using var disk = SmallDisk.Mount("64m");
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerProcess(disk.Store);
        worker.StartRun(broker.Port, HandCell.Write());
        await worker.UntilReadyAsync();
        await SendUntilAsync(worker, broker, "climateguard_store_rows", rows => rows >= 1);
        Assert.Equal(1, await MetricAsync(worker, "climateguard_store_keeping"));

        // The reserve is a tenth of the disk: less than that is left.
        var ballast = Path.Combine(disk.Store, "ballast");
        await File.WriteAllBytesAsync(ballast, new byte[new DriveInfo(disk.Store).AvailableFreeSpace - 5_000_000]);
        await SendUntilAsync(worker, broker, "climateguard_store_keeping", keeping => keeping == 0);
        var rows = await MetricAsync(worker, "climateguard_store_rows");
        await SendUntilAsync(worker, broker, "climateguard_store_not_kept_total", count => count >= 3);
        Assert.Equal(rows, await MetricAsync(worker, "climateguard_store_rows"));

        var ready = await worker.Http.GetStringAsync("/health/ready");
        Assert.StartsWith("ready\nThe disk of the store is full since ", ready, StringComparison.Ordinal);
        Assert.Contains("keeping goes on by itself", ready, StringComparison.Ordinal);

        // Judged and used all the same: the reading is shown, and a request is answered and stands in the ledger.
        // More than one: a lone jump would be set aside as a spike.
        await Eventually.UntilAsync(
            async () =>
            {
                await Shell.PublishAsync(broker.Port, "cg/hand/reading/air/a1", "21.5");
                return (await worker.GetAsync("/api/v1/sensors"))[0].GetProperty("value").GetDouble() == 21.5;
            },
            "21.5 is shown");
        await worker.PostAsync("/api/v1/machines/M1/job", """{"serial":"S1","part":"DISC","operation":"40","startC":28.0,"startU":0.1}""");
        var (_, answer) = await worker.PostAsync("/api/v1/permits", $$"""{"machine":"M1","serial":"S1","part":"DISC","operation":"40","requestId":"r1","sentAt":"{{DateTimeOffset.UtcNow:O}}"}""");
        Assert.True(answer.GetProperty("answer").GetString() == "HOLD", answer.GetRawText());
        Assert.Equal(0, (await worker.LedgerVerifyAsync()).ExitCode);
        await Eventually.UntilAsync(() => Task.FromResult(Lines(disk.Store, LedgerKinds.Alert).Any(line => line.Contains("disk/full", StringComparison.Ordinal))), "the alarm stands in the ledger");

        File.Delete(ballast);
        await SendUntilAsync(worker, broker, "climateguard_store_keeping", keeping => keeping == 1);
        await SendUntilAsync(worker, broker, "climateguard_store_rows", now => now > rows);
        Assert.Equal("ready", await worker.Http.GetStringAsync("/health/ready"));
        var notKept = await MetricAsync(worker, "climateguard_store_not_kept_total");
        var gaps = Lines(disk.Store, LedgerKinds.HistoryGap).Select(line => JsonSerializer.Deserialize<JsonElement>(line)).ToArray();
        Assert.Equal(["begun", "ended"], gaps.Select(gap => gap.GetProperty("state").GetString()));
        Assert.Equal(notKept, gaps[1].GetProperty("readings").GetInt64());
    }

    private static IEnumerable<string> Lines(string folder, string kind)
    {
        using var view = SqliteLedgerView.Open(new SqliteStorage { Folder = folder });
        return [.. view.AsOfNow().Where(entry => entry.Line.Kind == kind).Select(entry => entry.Line.Json)];
    }

    private static async Task SendUntilAsync(WorkerProcess worker, MosquittoBroker broker, string metric, Func<double, bool> reached) =>
        await Eventually.UntilAsync(
            async () =>
            {
                await Shell.PublishAsync(broker.Port, "cg/hand/reading/air/a1", "20.0");
                return reached(await MetricAsync(worker, metric));
            },
            metric);

    private static async Task<double> MetricAsync(WorkerProcess worker, string name)
    {
        var text = await worker.Http.GetStringAsync("/metrics");
        var line = text.Split('\n').Single(line => line.StartsWith(name + " ", StringComparison.Ordinal));
        return double.Parse(line[(name.Length + 1)..], CultureInfo.InvariantCulture);
    }
}
