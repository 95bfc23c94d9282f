using ClimateGuard.Edges.Notices;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Notices;

public sealed class NoticeChannelTests : IDisposable
{
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();
    private readonly List<string> sent = [];
    private SqliteOutbox outbox;
    private Exception? failure;

    public NoticeChannelTests() => outbox = SqliteOutbox.Open(place.Storage, place.Clock, place);

    public void Dispose()
    {
        outbox.Dispose();
        place.Dispose();
    }

    [Fact]
    public async Task A_hold_is_kept_then_sent_then_marked()
    {
        var channel = Channel();
        await TellAsync(channel);
        Assert.Equal(1, channel.Health().Waiting);
        Assert.Empty(sent);

        await channel.DeliverAsync(None);
        Assert.Single(sent);
        Assert.Equal(new ChannelHealth("mail", 1, 0, null, 0, null, null, 0), channel.Health());
    }

    [Fact]
    public async Task A_crash_after_sending_and_before_marking_sends_it_again_with_the_same_key()
    {
        // The outbox goes away under the sender, as with a kill between the two: the message is out, the mark is not made.
        var channel = Channel(after: outbox.Dispose);
        await TellAsync(channel);
        await Assert.ThrowsAnyAsync<Exception>(() => channel.DeliverAsync(None));
        Assert.Single(sent);

        Reopen();
        await Channel().DeliverAsync(None);
        Assert.Equal(2, sent.Count);
        Assert.Single(sent.Distinct());
        Assert.Equal(0, outbox.Counts("mail").Waiting);
    }

    [Fact]
    public async Task A_crash_before_anything_was_kept_tells_it_when_the_cause_is_raised_again()
    {
        var first = Channel();
        await first.TellAsync([Hold()], None);
        Reopen(); // the queue is gone
        var second = Channel();
        await TellAsync(second);
        await second.DeliverAsync(None);
        Assert.Single(sent);
    }

    [Fact]
    public async Task A_crash_after_the_opening_does_not_open_it_again()
    {
        var first = Channel();
        await TellAsync(first);
        await first.DeliverAsync(None);
        Reopen();
        var second = Channel();
        await TellAsync(second);
        await second.DeliverAsync(None);
        Assert.Single(sent);
    }

    [Fact]
    public async Task A_dead_server_is_tried_again_with_growing_pauses_and_takes_it_in_the_end()
    {
        failure = new DeliveryFailedException("mail.example.org:587 cannot be reached");
        var channel = Channel();
        await TellAsync(channel);
        await channel.DeliverAsync(None);
        await channel.DeliverAsync(None);

        var health = channel.Health();
        Assert.Equal((1, "mail.example.org:587 cannot be reached"), (health.Waiting, health.LastError));
        Assert.False(health.Healthy);
        Assert.Single(place.Complaints, line => line.StartsWith("mail does not get through: mail.example.org:587 cannot be reached", StringComparison.Ordinal));
        Assert.Equal(1, Attempts());

        place.Clock.Advance(TimeSpan.FromSeconds(19));
        await channel.DeliverAsync(None);
        Assert.Equal(2, Attempts());

        failure = null;
        place.Clock.Advance(TimeSpan.FromSeconds(38));
        await channel.DeliverAsync(None);
        Assert.Single(sent);
        Assert.True(channel.Health().Healthy);
    }

    [Fact]
    public async Task A_message_is_given_up_at_its_age_and_kept_with_the_reason()
    {
        failure = new DeliveryFailedException("no route");
        var channel = Channel();
        await TellAsync(channel);
        place.Clock.Advance(TimeSpan.FromHours(24));
        await channel.DeliverAsync(None);

        Assert.Equal(1, channel.Health().DeadLetters);
        Assert.Equal("no route", Assert.Single(outbox.DeadLetters("mail", 10)).Error);
        Assert.Contains(place.Complaints, line => line.Contains("gives up message", StringComparison.Ordinal) && line.Contains("It is kept", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_message_that_will_never_be_taken_does_not_stand_in_the_way_of_the_next()
    {
        outbox.Keep("mail", NoticeJson.Of(new NoticeState()), [("bad", "{"), ("good", NoticeJson.Of(TestNotice.Of("good", "here", place.Clock.GetUtcNow())))], place.Clock.GetUtcNow());
        await Channel().DeliverAsync(None);
        Assert.Equal(["good"], sent);
        Assert.Equal("bad", Assert.Single(outbox.DeadLetters("mail", 10)).Key);
    }

    [Fact]
    public async Task Telling_only_queues_and_what_finds_no_room_is_counted()
    {
        var channel = Channel();
        await channel.TellAsync([.. Enumerable.Range(0, 5000).Select(_ => Hold())], None);
        Assert.Equal(5000 - 4096, channel.Health().Lost);
        Assert.Empty(sent);
    }

    [Fact]
    public async Task Memory_that_cannot_be_read_is_reported_and_begun_anew()
    {
        outbox.Keep("mail", "{nonsense", [], place.Clock.GetUtcNow());
        var channel = Channel();
        await TellAsync(channel);
        Assert.Contains(place.Complaints, line => line.Contains("begins anew", StringComparison.Ordinal));
        Assert.Equal(1, channel.Health().Waiting);
    }

    [Fact]
    public void Pauses_double_to_a_quarter_of_an_hour_with_a_quarter_of_jitter()
    {
        var rules = new DeliveryRules();
        Assert.Equal(TimeSpan.FromSeconds(15), rules.PauseAfter(1, 0.5));
        Assert.Equal(TimeSpan.FromSeconds(30), rules.PauseAfter(2, 0.5));
        Assert.Equal(TimeSpan.FromSeconds(11.25), rules.PauseAfter(1, 0));
        Assert.Equal(TimeSpan.FromMinutes(15), rules.PauseAfter(1000, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => rules.PauseAfter(0, 0));
    }

    [Fact]
    public void A_notice_and_what_a_policy_remembers_come_back_as_they_were_written()
    {
        var script = new NoticeScript(NoticeScript.Rules, place.Clock.GetUtcNow()).Raise("m1").AfterMinutes(31);
        foreach (var notice in script.Said)
        {
            Assert.Equal(NoticeJson.Of(notice), NoticeJson.Of(NoticeJson.NoticeFrom(NoticeJson.Of(notice))));
        }

        Assert.Contains("\"kind\":\"followedUp\"", NoticeJson.Of(script.Said[1]), StringComparison.Ordinal);
        Assert.Equal(NoticeJson.Of(script.State), NoticeJson.Of(NoticeJson.StateFrom(NoticeJson.Of(script.State))));
    }

    private AlertRaised Hold() => new(place.Clock.GetUtcNow(), NoticeScript.Hold("M1"));

    private int Attempts() => outbox.Due("mail", place.Clock.GetUtcNow().AddDays(1), 10).Single().Attempts;

    private void Reopen()
    {
        outbox.Dispose();
        outbox = SqliteOutbox.Open(place.Storage, place.Clock, place);
    }

    private async Task TellAsync(NoticeChannel channel)
    {
        await channel.TellAsync([Hold()], None);
        channel.Note();
        place.Clock.Advance(TimeSpan.FromSeconds(20));
        channel.Note();
    }

    private NoticeChannel Channel(Action? after = null) => new(new NoticeChannelParts
    {
        Name = "mail",
        Policy = new NoticePolicy(NoticeScript.Rules),
        Priorities = new AlertPriorities(SmallCell.Of()),
        Outbox = outbox,
        Send = (notice, _) =>
        {
            if (failure is not null)
            {
                throw failure;
            }

            sent.Add(notice.Key);
            after?.Invoke();
            return Task.CompletedTask;
        },
        Delivery = new DeliveryRules { QuickRetries = 0 },
        CellTime = place.Clock,
        WallTime = place.Clock,
        Chance = new Random(1),
        Logger = place,
    });
}
