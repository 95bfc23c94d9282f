using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Edges.Sqlite;

public sealed class SqliteOutboxTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly TemporaryStore place = new();

    public void Dispose() => place.Dispose();

    [Fact]
    public void What_was_kept_waits_in_order_and_after_a_restart()
    {
        using (var outbox = Open())
        {
            Assert.Null(outbox.MemoryOf("mail"));
            outbox.Keep("mail", "{\"n\":1}", [("a", "{1}"), ("b", "{2}")], Begin);
            outbox.Keep("webhook", "{\"n\":2}", [("a", "{3}")], Begin);
        }

        using var again = Open();
        Assert.Equal("{\"n\":1}", again.MemoryOf("mail"));
        Assert.Equal([("a", "{1}"), ("b", "{2}")], again.Due("mail", Begin, 10).Select(item => (item.Key, item.Json)));
        Assert.Equal(["{3}"], again.Due("webhook", Begin, 10).Select(item => item.Json));
        Assert.Equal(new OutboxCounts(0, 2, 0, Begin), again.Counts("mail"));
    }

    [Fact]
    public void A_key_that_is_there_already_is_not_written_twice()
    {
        using var outbox = Open();
        outbox.Keep("mail", "{}", [("a", "{1}")], Begin);
        outbox.Keep("mail", "{}", [("a", "{2}"), ("b", "{3}")], Begin);
        Assert.Equal(["{1}", "{3}"], outbox.Due("mail", Begin, 10).Select(item => item.Json));
    }

    [Fact]
    public void Each_message_is_sent_postponed_or_given_up_by_itself()
    {
        using var outbox = Open();
        outbox.Keep("mail", "{}", [("a", "{}"), ("b", "{}"), ("c", "{}")], Begin);
        var items = outbox.Due("mail", Begin, 10);
        outbox.MarkSent(items[0].Seq, Begin);
        outbox.Postpone(items[1].Seq, "busy", Begin.AddMinutes(1));
        outbox.GiveUp(items[2].Seq, "never", Begin);

        Assert.Empty(outbox.Due("mail", Begin, 10));
        var later = Assert.Single(outbox.Due("mail", Begin.AddMinutes(1), 10));
        Assert.Equal(("b", 1, "busy"), (later.Key, later.Attempts, later.Error));
        var dead = Assert.Single(outbox.DeadLetters("mail", 10));
        Assert.Equal(("c", "never"), (dead.Key, dead.Error));
        Assert.Equal(new OutboxCounts(1, 1, 1, Begin), outbox.Counts("mail"));
    }

    [Fact]
    public void What_was_sent_is_forgotten_after_thirty_days_and_what_was_given_up_is_not()
    {
        using var outbox = Open();
        outbox.Keep("mail", "{}", [("a", "{}"), ("b", "{}"), ("c", "{}")], Begin);
        var items = outbox.Due("mail", Begin, 10);
        outbox.MarkSent(items[0].Seq, Begin);
        outbox.GiveUp(items[1].Seq, "never", Begin);
        outbox.MarkSent(items[2].Seq, Begin.AddDays(31));
        Assert.Equal(new OutboxCounts(1, 0, 1, null), outbox.Counts("mail"));
    }

    [Fact]
    public void Memory_and_messages_change_together_or_not_at_all()
    {
        using var outbox = Open();
        outbox.Keep("mail", "{\"n\":1}", [], Begin);
        using var other = new SqliteConnection($"Data Source={outbox.Opening.Path};Pooling=False");
        other.Open();
        using (other.BeginTransaction(deferred: false))
        {
            var fault = Assert.Throws<StoreUnavailableException>(() => outbox.Keep("mail", "{\"n\":2}", [("a", "{}")], Begin));
            Assert.Contains("another program holds it", fault.Message, StringComparison.Ordinal);
            Assert.Contains("wait in memory and are tried again", fault.Message, StringComparison.Ordinal);
        }

        Assert.Equal("{\"n\":1}", outbox.MemoryOf("mail"));
        Assert.Empty(outbox.Due("mail", Begin, 10));
        outbox.Keep("mail", "{\"n\":2}", [("a", "{}")], Begin);
        Assert.Single(outbox.Due("mail", Begin, 10));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1001)]
    public void Asking_for_none_or_too_many_is_refused(int most)
    {
        using var outbox = Open();
        Assert.Throws<ArgumentOutOfRangeException>(() => outbox.Due("mail", Begin, most));
    }

    private SqliteOutbox Open() => SqliteOutbox.Open(place.Storage, place.Clock, place);
}
