using ClimateGuard.Edges.Sqlite;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.SystemTests.History;

/// <summary>The history of the release before is being moved into the months, and the process is killed in the middle of it.</summary>
public sealed class HistoryMoveKillTests : IDisposable
{
    // Three chunks of the move and a rest.
    private const int Readings = 700_000;
    private const int MostRounds = 40;

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-move-").FullName;

    private string Log => Path.Combine(folder, "readings.db");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Kill_9_in_the_middle_of_the_move_loses_no_reading_and_leaves_none_twice()
    {
        FirstShape.Make(Log, Readings);
        var random = new Random(5);
        var (half, unnoted, moved) = (0, 0, 0L);
        for (var round = 0; moved < long.MaxValue; round++)
        {
            Assert.True(round < MostRounds, $"after {round} rounds the move is no farther than {moved}: it does not get on");
            var (months, before) = (MonthBytes(), moved);
            using (var child = LedgerChild.MoveHistory(folder))
            {
                Assert.Equal("opening", await child.ReadLineAsync());
                // Every other round once the file of a month has changed, before or after that is noted; else after the next chunk.
                await UntilAsync(() => round % 2 == 0 ? MonthBytes() != months : FirstShape.MovedUpTo(Log) != before);
                await Task.Delay(random.Next(0, 40));
                await child.KillAsync();
            }

            moved = FirstShape.MovedUpTo(Log);
            half += moved is > 0 and < long.MaxValue ? 1 : 0;
            unnoted += moved == before && MonthBytes() != months ? 1 : 0;
            Assert.All(HistoryFiles.Check(folder), file => Assert.Null(file.Damage));
        }

        Assert.True(half >= 2, $"only {half} kills came half way");
        Assert.True(unnoted >= 1, "no kill came after a month was written and before that was noted");
        using var readings = LedgerChild.OpenHistory(folder);
        await AssertEachOnceAsync(readings);
    }

    private static async Task AssertEachOnceAsync(SqliteReadings readings)
    {
        var number = 0;
        await foreach (var row in readings.RowsAsync("s0", DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(100), CancellationToken.None))
        {
            Assert.Equal((FirstShape.Begin + (number * 10_000L), FirstShape.Value(number)), (row.EpochMilliseconds, row.Value));
            number++;
        }

        Assert.Equal(Readings, number);
        Assert.Equal(Readings, readings.Health().Rows);
        foreach (var level in (HistoryLevel[])[HistoryLevel.Minute, HistoryLevel.QuarterHour])
        {
            var periods = await readings.AggregatesAsync("s0", DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(100), level, CancellationToken.None);
            Assert.Equal(Readings, periods.Sum(period => period.Count));
        }
    }

    private long MonthBytes() => Directory.EnumerateFiles(folder, "history-*").Sum(path => new FileInfo(path) is { Exists: true } file ? file.Length : 0);

    private static async Task UntilAsync(Func<bool> reached)
    {
        for (var patience = System.Diagnostics.Stopwatch.StartNew(); !reached(); await Task.Delay(1))
        {
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(60), "the move does not begin");
        }
    }
}
