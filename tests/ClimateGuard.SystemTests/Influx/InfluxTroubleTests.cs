using System.Text.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.Influx;

/// <summary>A real influxd refuses: the token, the bucket, a point. Each is said with what to mend, and nothing is lost.</summary>
public sealed class InfluxTroubleTests
{
    [Fact]
    public async Task A_wrong_token_is_said_the_readings_wait_and_the_right_one_needs_no_restart()
    {
        await using var server = await InfluxServer.StartNewAsync(accounts: true);
        await server.AskAsync("CREATE USER cg WITH PASSWORD 'secret' WITH ALL PRIVILEGES");
        await server.AskAsync("CREATE DATABASE cg1", user: "cg");
        var file = Path.GetTempFileName();
        await File.WriteAllTextAsync(file, "cg:wrong\n");
        using var place = new ClimateGuard.Tests.Support.TemporaryStore();
        await using var store = ClimateGuard.Edges.Influx.InfluxReadings.Open(
            new() { Url = server.Door.Address.ToString(), Org = "any", Bucket = "cg1/autogen", TokenFile = file },
            place.Folder, ClimateGuard.Tests.Support.TemporaryStore.CellWith(4), TimeProvider.System, place);

        await store.AppendAsync(InfluxBench.Second(0), CancellationToken.None);
        Assert.Contains("refuses the token (401", store.Health().Trouble, StringComparison.Ordinal);
        Assert.Contains("into the file that Influx:TokenFile names", store.Health().Trouble, StringComparison.Ordinal);
        var fault = await Assert.ThrowsAsync<StoreUnavailableException>(async () =>
            await store.ReadAsync("s0", InfluxBench.Begin, InfluxBench.Begin.AddDays(1), 10, CancellationToken.None));
        Assert.Contains("refuses the token", fault.Message, StringComparison.Ordinal);

        await File.WriteAllTextAsync(file, "cg:secret\n");
        for (var patience = 0; store.Health().SpooledBatches > 0; patience++)
        {
            Assert.True(patience < 200, store.Health().ToString());
            await Task.Delay(50);
        }

        Assert.Single(await store.ReadAsync("s0", InfluxBench.Begin, InfluxBench.Begin.AddDays(1), 10, CancellationToken.None));
        File.Delete(file);
    }

    [Fact]
    public async Task A_bucket_that_is_not_there_is_said_and_once_it_is_made_everything_comes_in()
    {
        await using var bench = await InfluxBench.StartAsync(settings => settings with { Bucket = "forgotten/autogen" });
        await bench.AppendSecondsAsync(0, 5);
        Assert.Contains("has no such bucket, organisation or address (404: database not found", bench.Store.Health().Trouble, StringComparison.Ordinal);
        Assert.Contains("Make bucket forgotten/autogen in organisation any", bench.Store.Health().Trouble, StringComparison.Ordinal);
        await bench.Server.AskAsync("CREATE DATABASE forgotten");
        await bench.UntilDrainedAsync();
        await bench.HasExactlyAsync(5);
    }

    [Fact]
    public async Task One_point_that_is_never_taken_stands_aside_with_its_reason_and_does_not_hold_up_the_rest()
    {
        await using var bench = await InfluxBench.StartAsync();
        // A year before somebody wrote text into our field: in that week influxd takes no numbers there.
        var before = InfluxBench.Begin.AddDays(-365);
        await bench.Server.WriteAsync(bench.Database, $"reading,cell=cell1,sensor=x value=\"text\" {before.ToUnixTimeMilliseconds()}000000");
        var poisoned = InfluxBench.At(2, -365L * 86_400_000, 42.5);

        await bench.Store.AppendAsync(Enumerable.Range(0, 20).SelectMany(InfluxBench.Second).Append(poisoned).ToArray(), CancellationToken.None);

        Assert.Equal(0, bench.Store.Health().SpooledBatches);
        await bench.HasExactlyAsync(20);
        Assert.Equal(1, bench.Store.Health().RefusedPoints);
        var kept = JsonSerializer.Deserialize<JsonElement>((await File.ReadAllLinesAsync(Path.Combine(bench.SpoolFolder, "refused.jsonl"))).Single());
        Assert.Contains("field type conflict", kept.GetProperty("reason").GetString(), StringComparison.Ordinal);
        Assert.StartsWith("reading,cell=cell1,sensor=s2 value=42.5 ", kept.GetProperty("line").GetString(), StringComparison.Ordinal);
        Assert.Contains(bench.Complaints, line => line.Contains("will never take 1 points", StringComparison.Ordinal));
    }

    [Fact]
    public async Task When_every_point_is_refused_the_fault_is_not_in_the_points_and_all_of_them_wait()
    {
        await using var bench = await InfluxBench.StartAsync();
        await bench.Server.WriteAsync(bench.Database, $"reading,cell=cell1,sensor=x value=\"text\" {InfluxBench.Begin.ToUnixTimeMilliseconds()}000000");
        await bench.AppendSecondsAsync(0, 3);
        Assert.Contains("refuses what it is sent (400", bench.Store.Health().Trouble, StringComparison.Ordinal);
        Assert.Equal((3, 0), (bench.Store.Health().SpooledBatches, bench.Store.Health().RefusedPoints));

        await bench.Server.AskAsync("DROP MEASUREMENT reading", bench.Database);
        await bench.UntilDrainedAsync();
        await bench.HasExactlyAsync(3);
    }

    [Fact]
    public async Task A_reading_older_than_the_retention_policy_stands_aside()
    {
        await using var bench = await InfluxBench.StartAsync(settings => settings with { Bucket = settings.Bucket.Replace("autogen", "day", StringComparison.Ordinal) });
        await bench.Server.AskAsync($"CREATE RETENTION POLICY \"day\" ON {bench.Database} DURATION 1d REPLICATION 1");
        var now = DateTimeOffset.UtcNow.ToUnixTimeMilliseconds() - InfluxBench.Begin.ToUnixTimeMilliseconds();
        await bench.Store.AppendAsync(new[] { InfluxBench.At(0, now - (100L * 86_400_000), 1) }, CancellationToken.None);
        await bench.Store.AppendAsync(new[] { InfluxBench.At(0, now, 2) }, CancellationToken.None);
        Assert.Equal((0, 1), (bench.Store.Health().SpooledBatches, bench.Store.Health().RefusedPoints));
        var points = await bench.Store.ReadAsync("s0", InfluxBench.Begin, DateTimeOffset.UtcNow.AddDays(1), 10, CancellationToken.None);
        Assert.Equal([2.0], points.Select(point => point.Value));
    }

    [Theory]
    [InlineData("a'b\" or 1=1; DROP DATABASE x")]
    [InlineData("Kühlmittel °C, 温度=1")]
    public async Task A_sensor_of_any_name_has_its_own_series(string name)
    {
        await using var bench = await InfluxBench.StartAsync();
        var cell = ClimateGuard.Tests.Support.TemporaryStore.CellOf("s0", name);
        using var place = new ClimateGuard.Tests.Support.TemporaryStore();
        await using var store = ClimateGuard.Edges.Influx.InfluxReadings.Open(bench.Settings, place.Folder, cell, TimeProvider.System, place);
        await store.AppendAsync(new[] { InfluxBench.At(0, 0, 1), InfluxBench.At(1, 0, 2) }, CancellationToken.None);
        // Late and once more: the question before the write names it too.
        await store.AppendAsync(new[] { InfluxBench.At(1, -5_000, 3), InfluxBench.At(1, 0, 2) }, CancellationToken.None);

        var points = await store.ReadAsync(name, InfluxBench.Begin.AddDays(-1), InfluxBench.Begin.AddDays(1), 10, CancellationToken.None);
        Assert.Equal([3.0, 2.0], points.Select(point => point.Value));
        Assert.Empty(place.Complaints);
    }
}
