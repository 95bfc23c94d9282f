using ClimateGuard.Edges.Patience;
using ClimateGuard.Worker.Api;

namespace ClimateGuard.Tests.Worker.Api;

public sealed class ReadyTests
{
    [Fact]
    public void With_nothing_wrong_it_is_the_one_word() => Assert.Equal("ready", HealthApi.Ready(null, []));

    [Fact]
    public void A_full_disk_and_damaged_files_follow_with_what_to_do_and_it_is_ready_all_the_same()
    {
        var gap = new HistoryGap(new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero), 17, 0, null, null);
        Assert.Equal(
            "ready\n"
            + "The disk of the store is full since 2026-03-02T06:00:00.0000000+00:00: 17 readings were judged and used, but not kept. Free some space there; keeping goes on by itself.\n"
            + "A file of the history was damaged and now lies at data/history-2026-02.db.damaged; what it holds is missing from charts. Keep it, and put back the one of the last backup while the worker is stopped.",
            HealthApi.Ready(gap, ["data/history-2026-02.db.damaged"]));
    }
}
