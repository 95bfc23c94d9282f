using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Ledger;

/// <summary>What comes again after a crash, and what does not.</summary>
public sealed class RestoreReaderTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly TimeSpan Day = TimeSpan.FromHours(24);

    private readonly TemporaryStore place = new();
    private readonly SqliteLedger ledger;
    private readonly List<LedgerLine> written = [];

    public RestoreReaderTests() => ledger = place.OpenLedger();

    public void Dispose()
    {
        ledger.Dispose();
        place.Dispose();
    }

    [Fact]
    public async Task The_newest_job_of_each_machine_and_the_events_after_it_come_in_order()
    {
        Write(-80, "event", "M1", "job");
        Write(-75, "event", "M1", "coolant");
        Write(-72, "event", "M1", "job");
        Write(-71, "event", "M2", "job");
        Write(-70, "event", "M1", "datumProbed");
        Write(-2, "event", "M2", "job");
        Write(-1, "event", "M1", "cutStarted");
        Assert.Equal(new long[] { 3, 5, 6, 7 }, await RestoredAsync());
    }

    [Fact]
    public async Task Of_the_window_come_decisions_and_what_asked_for_them_but_not_what_is_older()
    {
        Write(-30, "answer", "M1");
        Write(-29, "outlook", "M1");
        Write(-25, "event", "M1", "measurement");
        Write(-23, "event", "M1", "measurement");
        Write(-23, "permit", "M1");
        Write(-22, "override", "M1");
        Write(-22, "outlook", "M2");
        Write(-21, "notice", null);
        Write(-20, "event", null, "door");
        Write(-19, "event", "M1", "coolant");
        Write(-18, "event", "M1", "job");
        Write(-17, "answer", "M1");
        Assert.Equal(new long[] { 4, 5, 6, 7, 9, 11, 12 }, await RestoredAsync());
    }

    [Fact]
    public async Task Events_of_a_machine_without_a_job_come_by_the_window()
    {
        Write(-30, "event", "M2", "coolant");
        Write(-3, "event", "M2", "coolant");
        Write(-2, "event", "M9", "coolant");
        Assert.Equal(new long[] { 2, 3 }, await RestoredAsync());
    }

    [Fact]
    public async Task A_job_of_long_ago_is_not_looked_for_for_ever()
    {
        Write(-24 * 40, "event", "M1", "job");
        for (var n = 0; n < 600; n++)
        {
            Write(-24 * 39, "event", "M1", "coolant");
        }

        Assert.Empty(await RestoredAsync());
    }

    [Fact]
    public async Task A_small_window_in_a_long_ledger_with_late_lines_misses_none()
    {
        var random = new Random(1);
        for (var n = 0; n < 20_000; n++)
        {
            // A line a minute for two weeks, some of them from a buffer that held them back for up to 22 minutes.
            Write(-14 * 24 + (n / 60.0) - (random.Next(10) == 0 ? random.NextDouble() * 22 / 60 : 0), "answer", "M1");
        }

        await ledger.AppendAsync(written, CancellationToken.None);
        var end = Now.AddHours((-14 * 24) + (20_000 / 60.0));
        for (var n = 1; n <= 60; n++)
        {
            var begin = end - TimeSpan.FromMinutes(5.3 * n);
            var expected = written.Select((line, index) => (line, seq: index + 1L)).Where(pair => pair.line.Time >= begin).Select(pair => pair.seq);
            Assert.Equal(expected, await ReadAsync(begin + Day));
        }
    }

    [Fact]
    public async Task An_empty_ledger_restores_nothing() => Assert.Empty(await RestoredAsync());

    private void Write(double hours, string kind, string? machine, string type = "") =>
        written.Add(new LedgerLine(Now.AddHours(hours), kind, machine, $$"""{"time":"x","type":"{{type}}"}"""));

    private async Task<long[]> RestoredAsync()
    {
        await ledger.AppendAsync(written, CancellationToken.None);
        return await ReadAsync(Now);
    }

    private async Task<long[]> ReadAsync(DateTimeOffset now)
    {
        var found = new List<long>();
        await foreach (var entry in RestoreReader.EventsSince(ledger, ["M1", "M2", "M3"], now, Day))
        {
            found.Add(entry.Seq);
        }

        return [.. found];
    }
}
