using System.Globalization;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.SystemTests.History;

/// <summary>A process that appends and packs all the time is killed in the middle of it.</summary>
public sealed class HistoryKillTests : IDisposable
{
    private const int Rounds = 15;

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-history-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Kill_9_in_the_middle_of_appending_and_packing_loses_no_committed_row_and_keeps_every_file_sound()
    {
        var random = new Random(11);
        for (var round = 0; round < Rounds; round++)
        {
            using var child = LedgerChild.AppendHistory(folder);
            var committed = long.Parse((await child.ReadLineAsync())!, CultureInfo.InvariantCulture);
            await Task.Delay(random.Next(0, 700));
            var rest = (await child.KillAsync()).Split('\n', StringSplitOptions.RemoveEmptyEntries);
            // A number that was cut off in the pipe is not one.
            committed = rest.Length > 1 ? long.Parse(rest[^2], CultureInfo.InvariantCulture) : committed;

            Assert.All(HistoryFiles.Check(folder), file => Assert.Null(file.Damage));
            using var readings = LedgerChild.OpenHistory(folder);
            await AssertWholeAsync(readings, committed);
        }
    }

    private static async Task AssertWholeAsync(SqliteReadings readings, long committed)
    {
        var expected = 0L;
        await foreach (var row in readings.RowsAsync("s0", DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(100), CancellationToken.None))
        {
            // Rows are numbered from zero without a gap, in their time and in their value.
            Assert.Equal((LedgerChild.TimeOf(expected), expected / 10.0), (row.EpochMilliseconds, row.Value));
            expected++;
        }

        Assert.InRange(expected, committed, committed + 100_000);
        Assert.Equal(expected, readings.Health().Rows);
        var minutes = await readings.AggregatesAsync(
            "s0", DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(100), HistoryLevel.Minute, CancellationToken.None);
        Assert.Equal(expected, minutes.Sum(minute => minute.Count));
    }
}
