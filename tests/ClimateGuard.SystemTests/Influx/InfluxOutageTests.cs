using ClimateGuard.Edges.Sqlite;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.SystemTests.Influx;

/// <summary>A real influxd is killed, frozen, and comes back: nothing acknowledged is lost, nothing is there twice.</summary>
public sealed class InfluxOutageTests
{
    [Fact]
    public async Task Killed_in_the_middle_of_a_stream_and_started_again_it_has_every_reading_exactly_once()
    {
        await using var bench = await InfluxBench.StartAsync();
        var appending = Task.Run(async () =>
        {
            for (var second = 0; second < 600; second++)
            {
                await bench.Store.AppendAsync(InfluxBench.Second(second), CancellationToken.None);
                await Task.Delay(second % 8 == 0 ? 15 : 1);
            }
        });

        for (var kill = 0; kill < 3; kill++)
        {
            await Task.Delay(300);
            await bench.Server.KillAsync();
            await Task.Delay(200);
            await bench.Server.StartAsync();
        }

        await appending;
        await bench.UntilDrainedAsync();
        await bench.HasExactlyAsync(600);
        Assert.Contains(bench.Complaints, line => line.Contains("readings wait on disk", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Down_for_an_hour_of_event_time_it_gets_everything_in_order_before_anything_new()
    {
        await using var bench = await InfluxBench.StartAsync();
        await bench.AppendSecondsAsync(0, 10);
        await bench.Server.KillAsync();
        await bench.AppendSecondsAsync(10, 3_610);

        var health = bench.Store.Health();
        Assert.Equal(3_600, health.SpooledBatches);
        Assert.InRange(health.SpooledBytes, 3_600 * 4 * 28, 16 << 20);
        Assert.NotNull(health.OldestSpooled);
        Assert.Contains("does not answer", health.Trouble, StringComparison.Ordinal);
        var fault = await Assert.ThrowsAsync<StoreUnavailableException>(async () =>
            await bench.Store.ReadAsync("s0", InfluxBench.Begin, InfluxBench.Begin.AddHours(2), 100, CancellationToken.None));
        Assert.Contains("Is it running, and is Influx:Url right?", fault.Message, StringComparison.Ordinal);

        await bench.Server.StartAsync();
        await bench.UntilDrainedAsync();
        await bench.AppendSecondsAsync(3_610, 3_620);
        await bench.HasExactlyAsync(3_620);
        Assert.Null(bench.Store.Health().Trouble);
        Assert.InRange(bench.Server.Door.Writes, 1, 100);
    }

    [Fact]
    public async Task A_worker_that_starts_with_a_full_pocket_brings_it_in_without_a_new_reading()
    {
        await using var bench = await InfluxBench.StartAsync();
        await bench.AppendSecondsAsync(0, 5);
        await bench.Server.KillAsync();
        await bench.AppendSecondsAsync(5, 50);
        await bench.Store.KeepUnreadableAsync([(InfluxBench.Begin, new UnreadableMessage("a/b", "no \"number\"", "x=1,y\\"))], CancellationToken.None);
        await bench.ReopenAsync();
        Assert.Equal(0, bench.Store.Health().SpooledBatches);

        await bench.Store.StartAsync(CancellationToken.None);
        Assert.Equal(46, bench.Store.Health().SpooledBatches);
        await bench.Server.StartAsync();
        await bench.UntilDrainedAsync();

        await bench.HasExactlyAsync(50);
        Assert.Equal(
            [(InfluxBench.Begin, new UnreadableMessage("a/b", "no \"number\"", "x=1,y\\"))],
            await bench.Store.NewestUnreadableAsync(10, CancellationToken.None));
    }

    [Fact]
    public async Task What_comes_twice_while_it_is_down_or_after_a_restart_is_there_once_and_another_value_is_a_duplicate()
    {
        await using var bench = await InfluxBench.StartAsync();
        await bench.AppendSecondsAsync(0, 20);
        await bench.Server.KillAsync();
        await bench.AppendSecondsAsync(10, 40);
        await bench.AppendSecondsAsync(10, 40);
        await bench.Store.AppendAsync(new[] { InfluxBench.At(0, 5_000, 99), InfluxBench.At(0, 30_000, 98), InfluxBench.At(0, 30_000, 97) }, CancellationToken.None);
        await bench.ReopenAsync();
        await bench.AppendSecondsAsync(0, 40);
        await bench.Server.StartAsync();
        await bench.UntilDrainedAsync();

        var rows = await bench.RowsAsync("s0");
        var begin = InfluxBench.Begin.ToUnixTimeMilliseconds();
        Assert.Equal(
            [(begin + 5_000, 99.0), (begin + 30_000, 97.0), (begin + 30_000, 98.0)],
            rows.Where(row => row.Reason == TrustReason.Duplicate).Select(row => (row.EpochMilliseconds, row.Raw)));
        Assert.Equal(
            Enumerable.Range(0, 40).Select(second => (begin + (second * 1_000L), InfluxBench.Value(0, second))),
            rows.Where(row => row.Trust == Trust.Accepted).Select(row => (row.EpochMilliseconds, row.Value)));
    }

    [Fact]
    public async Task Frozen_it_is_given_up_after_the_time_allowed_and_the_readings_wait()
    {
        await using var bench = await InfluxBench.StartAsync(settings => settings with { TimeoutSeconds = 1 });
        await bench.AppendSecondsAsync(0, 5);
        await bench.Server.SignalAsync("STOP");
        await bench.AppendSecondsAsync(5, 30);
        Assert.True(bench.Complaints.Any(line => line.Contains("no answer within 1 s", StringComparison.Ordinal)), string.Join('\n', bench.Complaints));
        await bench.Server.SignalAsync("CONT");
        await bench.UntilDrainedAsync();
        await bench.HasExactlyAsync(30);
    }

    [Fact]
    public async Task A_write_whose_answer_is_lost_is_done_again_and_changes_nothing()
    {
        await using var bench = await InfluxBench.StartAsync();
        await bench.AppendSecondsAsync(0, 5);
        bench.Server.Door.AnswersToLose = 2;
        await bench.Store.AppendAsync(
            new[] { InfluxBench.At(0, 5_000, InfluxBench.Value(0, 5)), InfluxBench.At(0, 5_000, 77) }, CancellationToken.None);
        await bench.AppendSecondsAsync(5, 10);
        await bench.UntilDrainedAsync();
        var rows = await bench.RowsAsync("s0");
        Assert.Equal(10, rows.Count(row => row.Trust == Trust.Accepted));
        Assert.Equal([77.0], rows.Where(row => row.Trust == Trust.Quarantined).Select(row => row.Raw));
    }

    [Theory]
    [InlineData(503, "engine: cache maximum memory size exceeded")]
    [InlineData(429, "org has exceeded limited_write plan limit")]
    public async Task Asked_to_wait_it_waits_and_goes_on_by_itself(int status, string words)
    {
        await using var bench = await InfluxBench.StartAsync();
        bench.Server.Door.Instead = (status, words, "1");
        await bench.AppendSecondsAsync(0, 5);
        Assert.Contains(words, bench.Store.Health().Trouble, StringComparison.Ordinal);
        bench.Server.Door.Instead = null;
        await bench.UntilDrainedAsync();
        await bench.HasExactlyAsync(5);
    }
}
