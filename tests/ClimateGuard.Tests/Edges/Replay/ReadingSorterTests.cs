using ClimateGuard.Edges.Replay;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Replay;

/// <summary>Readings in the order of event time, then sensor, then live before not live, then value: as LINQ sorts them.</summary>
public sealed class ReadingSorterTests
{
    private const long Begin = 1_767_225_600_000;

    [Theory]
    [InlineData(300_000, 1_000_000)]
    [InlineData(300_000, 70_000)]
    [InlineData(5_000, 1_000)]
    [InlineData(0, 1_000)]
    public void Series_one_after_the_other_rows_out_of_order_and_pieces_on_disk_come_out_as_one_order(int count, int mostInMemory)
    {
        var chance = new Random(7);
        var readings = Enumerable.Range(0, count).Select(i => new Reading(
            i * 5 / Math.Max(count, 1), Begin + (chance.Next(50) == 0 ? chance.Next(1_000_000) : (i % (Math.Max(count, 5) / 5)) * 4L), chance.Next(3) - 1)).ToArray();
        using var sorter = new ReadingSorter(mostInMemory);
        foreach (var (reading, i) in readings.Select((reading, i) => (reading, i)))
        {
            sorter.Add(new TrustedReading(reading, reading.Value, Trust.Accepted, IsLive(i) ? TrustReason.None : TrustReason.Retained));
        }

        var sorted = sorter.InOrder();
        foreach (var (reading, live) in readings.Select((reading, i) => (Reading: reading, Live: IsLive(i)))
            .OrderBy(one => one.Reading.EpochMilliseconds).ThenBy(one => one.Reading.Sensor).ThenBy(one => one.Live ? 0 : 1).ThenBy(one => one.Reading.Value))
        {
            Assert.True(sorted.MoveNext());
            Assert.Equal((reading.EpochMilliseconds, reading.Sensor, live, reading.Value), (sorted.Current.Time, sorted.Current.Sensor, sorted.Current.Live, sorted.Current.Value));
        }

        Assert.False(sorted.MoveNext());
        Assert.Equal(count, sorter.Count);
    }

    [Theory]
    [InlineData(946_684_800_000, 0)]
    [InlineData(4_102_444_800_000, 1_048_575)]
    public void A_row_keeps_times_of_2000_to_2100_and_a_million_sensors(long time, int sensor)
    {
        var row = new ReadingRow(time, sensor, live: false, -0.25);

        Assert.Equal((time, sensor, false, -0.25), (row.Time, row.Sensor, row.Live, row.Value));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReadingRow(time, 1_048_576, live: true, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReadingRow(-1, sensor, live: true, 0));
    }

    private static bool IsLive(int i) => i % 11 != 3;
}
