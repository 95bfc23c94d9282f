using ClimateGuard.Edges.Patience;
using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Tests.Worker.Hosting;

public sealed class StoreAlarmsTests
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly StoreAlarms alarms = new();

    [Fact]
    public void A_disk_that_fills_is_told_at_85_and_at_95_percent_once_each_and_again_when_it_is_over()
    {
        Assert.Equal([], Ids(0.84));
        Assert.Equal(["disk/85 raised"], Ids(0.85));
        Assert.Equal([], Ids(0.90));
        Assert.Equal(["disk/95 raised"], Ids(0.951));
        Assert.Equal([], Ids(0.94));
        Assert.Equal([], Ids(null));
        Assert.Equal(["disk/95 cleared"], Ids(0.92));
        Assert.Equal(["disk/85 cleared"], Ids(0.2));
        Assert.Equal(["disk/85 raised", "disk/95 raised"], Ids(0.99));
    }

    [Fact]
    public void That_readings_are_not_kept_is_told_when_it_begins_and_when_it_ends()
    {
        var gap = new HistoryGap(Now, 1, 0, 0, 0);
        Assert.Equal(["disk/full raised"], Ids(0.5, gap));
        Assert.Equal([], Ids(0.5, gap with { Readings = 2 }));
        Assert.Equal(["disk/full cleared"], Ids(0.5));
    }

    [Fact]
    public void A_damaged_file_is_told_once_with_where_it_lies()
    {
        var told = Assert.Single(alarms.Step(0.5, null, ["/data/history-2026-03.db.damaged-1"], Now));
        Assert.Contains("/data/history-2026-03.db.damaged-1", told.Alert.Text, StringComparison.Ordinal);
        Assert.Empty(alarms.Step(0.5, null, ["/data/history-2026-03.db.damaged-1"], Now));
    }

    private string[] Ids(double? used, HistoryGap? gap = null) =>
        [.. alarms.Step(used, gap, [], Now).Select(raised => $"{raised.Alert.Id} {(raised.Alert.Cleared ? "cleared" : "raised")}")];
}
