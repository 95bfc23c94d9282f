using ClimateGuard.SystemTests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.SystemTests.Influx;

/// <summary>The spool of the real store: full, torn, damaged, killed in the middle of draining.</summary>
public sealed class InfluxSpoolTests
{
    [Fact]
    public async Task A_full_spool_holds_the_reading_back_says_so_and_goes_on_by_itself()
    {
        await using var bench = await InfluxBench.StartAsync(settings => settings with { SpoolMegabytes = 1 });
        await bench.Server.KillAsync();
        var appended = 0;
        var appending = Task.Run(async () =>
        {
            for (var batch = 0; batch < 40; batch++)
            {
                await bench.Store.AppendAsync(Enumerable.Range(batch * 1_000, 1_000).Select(n => InfluxBench.At(0, n, n)).ToArray(), CancellationToken.None);
                appended++;
            }
        });
        await bench.UntilAsync(() => bench.Store.Health().IsFull, "the spool is full");
        var held = appended;
        await Task.Delay(1_000);
        Assert.Equal(held, appended);
        Assert.InRange(held, 20, 39);
        Assert.InRange(bench.Store.Health().SpooledBytes, 1 << 19, 1 << 20);
        Assert.Contains(bench.Complaints, line => line.Contains("is full (1 MiB): nothing is taken from the broker", StringComparison.Ordinal));

        await bench.Server.StartAsync();
        await appending;
        await bench.UntilDrainedAsync();
        Assert.False(bench.Store.Health().IsFull);
        Assert.Equal(Enumerable.Range(0, 40_000).Select(n => (double)n), (await bench.RowsAsync("s0")).Select(row => row.Value));
    }

    [Fact]
    public async Task A_tail_that_was_cut_off_is_said_and_everything_before_it_is_brought_in()
    {
        await using var bench = await InfluxBench.StartAsync();
        await bench.Server.KillAsync();
        await bench.AppendSecondsAsync(0, 20);
        await bench.Store.DisposeAsync();
        var file = Directory.GetFiles(bench.SpoolFolder, "*.spool").Single();
        using (var cut = new FileStream(file, FileMode.Open))
        {
            cut.SetLength(cut.Length - 7);
        }

        await bench.ReopenAsync();
        await bench.Server.StartAsync();
        await bench.Store.StartAsync(CancellationToken.None);
        await bench.UntilDrainedAsync();

        await bench.HasExactlyAsync(19);
        Assert.Contains(bench.Complaints, line => line.Contains("a write that was cut off", StringComparison.Ordinal));
        Assert.Empty(Directory.GetFiles(bench.SpoolFolder, "*.spool"));
    }

    [Fact]
    public async Task Damage_in_the_middle_costs_the_damaged_batch_alone_and_the_file_is_kept()
    {
        await using var bench = await InfluxBench.StartAsync();
        await bench.Server.KillAsync();
        await bench.AppendSecondsAsync(0, 20);
        await bench.Store.DisposeAsync();
        var file = Directory.GetFiles(bench.SpoolFolder, "*.spool").Single();
        var bytes = await File.ReadAllBytesAsync(file);
        var record = (bytes.Length - 8) / 20;
        bytes[8 + (record * 7) + (record / 2)] ^= 0x10;
        await File.WriteAllBytesAsync(file, bytes);

        await bench.ReopenAsync();
        await bench.Server.StartAsync();
        await bench.Store.StartAsync(CancellationToken.None);
        await bench.UntilDrainedAsync();

        Assert.Equal(19, (await bench.RowsAsync("s0")).Count);
        Assert.DoesNotContain(await bench.RowsAsync("s0"), row => row.Value == InfluxBench.Value(0, 7));
        Assert.Contains(bench.Complaints, line => line.Contains("are damaged and are left out", StringComparison.Ordinal));
        Assert.Single(Directory.GetFiles(bench.SpoolFolder, "*.damaged"));
    }

    [Fact]
    public async Task Killed_at_any_moment_of_a_drain_nothing_is_lost_and_nothing_is_there_twice()
    {
        await using var bench = await InfluxBench.StartAsync(settings => settings with { SpoolMegabytes = 2 });
        await bench.Server.KillAsync();
        for (var batch = 0; batch < 40; batch++)
        {
            await bench.Store.AppendAsync(Enumerable.Range(batch * 1_000, 1_000).Select(n => InfluxBench.At(n % 4, n, n)).ToArray(), CancellationToken.None);
        }

        await bench.Store.DisposeAsync();
        await bench.Server.StartAsync();
        var kills = 0;
        for (; Directory.GetFiles(bench.SpoolFolder, "*.spool").Length > 0; kills++)
        {
            Assert.True(kills < 200, "the spool never drains");
            using var child = InfluxChild.Drain(bench.Settings, bench.Place.Folder);
            await child.ReadLineAsync();
            // Later each time, so that it is interrupted on a fast machine and ends on a slow one.
            await Task.Delay(Random.Shared.Next(0, 40 * (kills + 1)));
            await child.KillAsync();
        }

        await bench.ReopenAsync();
        var rows = new List<StoredReading>();
        for (var sensor = 0; sensor < 4; sensor++)
        {
            rows.AddRange(await bench.RowsAsync($"s{sensor}"));
        }

        Assert.All(rows, row => Assert.Equal(Trust.Accepted, row.Trust));
        Assert.Equal(Enumerable.Range(0, 40_000).Select(n => (double)n), rows.OrderBy(row => row.EpochMilliseconds).Select(row => row.Value));
        Assert.True(kills > 1, "the drain was never interrupted");
    }

    [Fact]
    public async Task Killed_while_it_spools_every_batch_that_was_committed_comes_in()
    {
        await using var bench = await InfluxBench.StartAsync();
        await bench.Server.KillAsync();
        var committed = -1;
        for (var round = 0; round < 4; round++)
        {
            using var child = InfluxChild.Append(bench.Settings, bench.Place.Folder, committed + 1);
            for (var n = 0; n < 30; n++)
            {
                committed = int.Parse((await child.ReadLineAsync())!, System.Globalization.CultureInfo.InvariantCulture);
            }

            var rest = (await child.KillAsync()).Split('\n');
            committed = rest.Length > 1 ? int.Parse(rest[^2], System.Globalization.CultureInfo.InvariantCulture) : committed;
        }

        await bench.ReopenAsync();
        await bench.Server.StartAsync();
        await bench.Store.StartAsync(CancellationToken.None);
        await bench.UntilDrainedAsync();

        // The batch after the last that was said to be committed may be there or not.
        var rows = await bench.RowsAsync("s0");
        Assert.InRange(rows.Count, committed + 1, committed + 2);
        Assert.Equal(Enumerable.Range(0, committed + 1).Select(n => InfluxBench.Value(0, n)), rows.Take(committed + 1).Select(row => row.Value));
    }
}
