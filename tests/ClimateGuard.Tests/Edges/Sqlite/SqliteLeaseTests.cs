using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;

namespace ClimateGuard.Tests.Edges.Sqlite;

/// <summary>One worker decides at a time, whatever the clocks say.</summary>
public sealed class SqliteLeaseTests : IDisposable
{
    private static readonly TimeSpan Ttl = TimeSpan.FromSeconds(10);
    private static readonly LeaseOwner Anna = new("pc1", 11);
    private static readonly LeaseOwner Bert = new("pc1", 22);
    private static readonly CancellationToken None = CancellationToken.None;
    private static readonly DateTimeOffset Noon = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    private readonly TemporaryStore place = new();
    private readonly FakeTimeProvider monotonic = new();
    private readonly SqliteLedger annasLedger;
    private readonly SqliteLedger bertsLedger;
    private readonly SqliteLease annas;
    private readonly SqliteLease berts;

    public SqliteLeaseTests()
    {
        annasLedger = place.OpenLedger();
        bertsLedger = place.OpenLedger();
        annas = annasLedger.OpenLease(monotonic);
        berts = bertsLedger.OpenLease(monotonic);
    }

    public void Dispose()
    {
        annas.Dispose();
        berts.Dispose();
        annasLedger.Dispose();
        bertsLedger.Dispose();
        place.Dispose();
    }

    [Fact]
    public void The_second_is_told_who_holds_it_since_when_and_until_when()
    {
        Assert.Equal(1, annas.TryAcquire(Anna, Ttl, Noon).Token);

        var answer = berts.TryAcquire(Bert, Ttl, Noon.AddSeconds(1));

        Assert.Equal(new LeaseAnswer(null, new LeaseHolder(1, Anna, Noon, Noon.AddSeconds(10)), null), answer);
        Assert.Equal("Process 11 on pc1 (since 2026-03-02 12:00:00Z)", answer.Holder.ToString());
    }

    [Fact]
    public void The_holder_learns_once_who_was_refused_and_when_it_first_asked()
    {
        annas.TryAcquire(Anna, Ttl, Noon);
        berts.NoteRefusal(Bert, Noon.AddSeconds(1));
        berts.NoteRefusal(Bert, Noon.AddSeconds(2));

        var refused = Assert.Single(annas.Refusals());
        Assert.Equal(new RefusedClaim(Bert, Noon.AddSeconds(1)), refused);
        annas.Forget(refused);
        Assert.Empty(annas.Refusals());
    }

    [Fact]
    public void Each_take_over_counts_the_token_up_after_a_release_and_after_an_end()
    {
        annas.TryAcquire(Anna, Ttl, Noon);
        Assert.True(annas.Release(1));
        Assert.Null(annas.Holder());
        Assert.Equal((2, null), (berts.TryAcquire(Bert, Ttl, Noon).Token, berts.TryAcquire(Bert, Ttl, Noon).Token));

        var again = annas.TryAcquire(Anna, Ttl, Noon.AddSeconds(10));

        Assert.Equal(3, again.Token);
        Assert.Equal(Bert, again.Before?.Owner);
        Assert.False(berts.Renew(2, Ttl, Noon.AddSeconds(10)));
        Assert.False(berts.Release(2));
        Assert.Equal(Anna, berts.Holder()?.Owner);
    }

    [Fact]
    public void A_renewal_holds_it_also_late_as_long_as_nobody_took_over()
    {
        annas.TryAcquire(Anna, Ttl, Noon);
        Assert.True(annas.Renew(1, Ttl, Noon.AddSeconds(8)));
        Assert.Null(berts.TryAcquire(Bert, Ttl, Noon.AddSeconds(17)).Token);
        Assert.True(annas.Renew(1, Ttl, Noon.AddSeconds(60)));
        Assert.Null(berts.TryAcquire(Bert, Ttl, Noon.AddSeconds(69)).Token);
    }

    [Fact]
    public async Task A_worker_that_was_paused_while_another_took_over_writes_nothing()
    {
        annasLedger.WriteWith(annas.TryAcquire(Anna, Ttl, Noon).Token!.Value);
        await annasLedger.AppendAsync([Line("anna")], None);
        bertsLedger.WriteWith(berts.TryAcquire(Bert, Ttl, Noon.AddSeconds(10)).Token!.Value);

        // Before the new one has written anything, and without a line of its own too.
        var lost = await Assert.ThrowsAsync<LeaseLostException>(async () => await annasLedger.AppendAsync([Line("anna")], None));
        await Assert.ThrowsAsync<LeaseLostException>(async () => await annasLedger.AppendAsync([], None));
        await bertsLedger.AppendAsync([Line("bert")], None);

        Assert.Contains("Process 22 on pc1 (since 2026-03-02 12:00:10Z) decides for this cell. Nothing was written.", lost.Message, StringComparison.Ordinal);
        Assert.Equal([Line("anna"), Line("bert")], (await bertsLedger.ReadAsync(0, 10, None)).Select(entry => entry.Line));
        Assert.Null((await bertsLedger.VerifyAsync("cell1", null, None)).Break);
    }

    [Fact]
    public async Task Nobody_writes_without_asking_once_there_is_a_lease_nor_after_giving_it_back()
    {
        await bertsLedger.AppendAsync([Line("a tool, before any worker")], None);
        annasLedger.WriteWith(annas.TryAcquire(Anna, Ttl, Noon).Token!.Value);
        await Assert.ThrowsAsync<LeaseLostException>(async () => await bertsLedger.AppendAsync([Line("bert")], None));

        annas.Release(1);

        await Assert.ThrowsAsync<LeaseLostException>(async () => await annasLedger.AppendAsync([Line("anna")], None));
        await Assert.ThrowsAsync<LeaseLostException>(async () => await bertsLedger.AppendAsync([], None));
    }

    [Fact]
    public void A_clock_set_back_an_hour_delays_the_take_over_from_a_dead_worker_by_one_term_only()
    {
        annas.TryAcquire(Anna, Ttl, Noon);
        var back = Noon.AddHours(-1);
        Assert.Null(berts.TryAcquire(Bert, Ttl, back).Token);
        monotonic.Advance(TimeSpan.FromSeconds(9));
        Assert.Null(berts.TryAcquire(Bert, Ttl, back.AddSeconds(9)).Token);
        monotonic.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal(2, berts.TryAcquire(Bert, Ttl, back.AddSeconds(10)).Token);
    }

    [Fact]
    public void A_clock_set_back_an_hour_takes_it_from_nobody_who_is_alive()
    {
        annas.TryAcquire(Anna, Ttl, Noon);
        for (var second = 3; second < 60; second += 3)
        {
            monotonic.Advance(TimeSpan.FromSeconds(3));
            Assert.True(annas.Renew(1, Ttl, Noon.AddHours(-1).AddSeconds(second)));
            Assert.Null(berts.TryAcquire(Bert, Ttl, Noon.AddHours(-1).AddSeconds(second)).Token);
        }
    }

    [Fact]
    public void A_clock_set_forward_an_hour_takes_it_from_nobody_who_was_seen_alive()
    {
        annas.TryAcquire(Anna, Ttl, Noon);
        Assert.Null(berts.TryAcquire(Bert, Ttl, Noon.AddSeconds(1)).Token);
        annas.Renew(1, Ttl, Noon.AddSeconds(3));
        Assert.Null(berts.TryAcquire(Bert, Ttl, Noon.AddSeconds(4)).Token);
        monotonic.Advance(TimeSpan.FromSeconds(2));

        Assert.Null(berts.TryAcquire(Bert, Ttl, Noon.AddHours(1)).Token);
        monotonic.Advance(Ttl);
        Assert.Equal(2, berts.TryAcquire(Bert, Ttl, Noon.AddHours(1)).Token);
    }

    [Theory]
    [InlineData("UPDATE lease SET token = 0")]
    [InlineData("DELETE FROM lease")]
    public void The_token_never_falls(string slip)
    {
        annas.TryAcquire(Anna, Ttl, Noon);
        using var connection = new SqliteConnection($"Data Source={place.LedgerPath};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = slip;
        Assert.Throws<SqliteException>(() => command.ExecuteNonQuery());
    }

    [Theory]
    [InlineData(0.9)]
    [InlineData(3601)]
    public void A_term_outside_its_range_is_refused(double seconds) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => annas.TryAcquire(Anna, TimeSpan.FromSeconds(seconds), Noon));

    private static LedgerLine Line(string who) => new(Noon, "answer", "M1", $"{{\"who\":\"{who}\"}}");
}
