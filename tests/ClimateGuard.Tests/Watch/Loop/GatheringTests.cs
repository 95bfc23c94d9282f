using System.Threading.Channels;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Extensions.Time.Testing;

namespace ClimateGuard.Tests.Watch.Loop;

/// <summary>How many arrivals one commit takes: by size, by time, and at once where somebody waits.</summary>
public sealed class GatheringTests
{
    private static readonly TimeSpan Gather = TimeSpan.FromMilliseconds(15);

    private readonly Channel<Arrival> source = Channel.CreateUnbounded<Arrival>();
    private readonly Channel<PostedEvent> posted = Channel.CreateUnbounded<PostedEvent>();
    private readonly FakeTimeProvider time = new();

    [Fact]
    public async Task Readings_that_come_within_the_time_are_committed_together()
    {
        var batch = new LoopBatch(100);
        Send(3);
        var filling = Fill(batch, Gather);
        Assert.False(filling.IsCompleted);
        Send(4);
        await AdvanceUntilAsync(() => filling.IsCompleted);
        await filling;
        Assert.Equal(7, batch.Arrivals.Length);
    }

    [Fact]
    public async Task A_stream_that_never_pauses_is_committed_when_the_time_is_over()
    {
        var batch = new LoopBatch(100_000);
        Send(1);
        var filling = Fill(batch, Gather);
        await AdvanceUntilAsync(() =>
        {
            Send(1);
            return filling.IsCompleted;
        });
        await filling;
        Assert.InRange(batch.Arrivals.Length, 6, 99_999);
        Assert.True(time.GetUtcNow() - time.Start >= Gather, "it did not wait");
    }

    [Fact]
    public async Task A_full_batch_does_not_wait_and_leaves_the_rest_for_the_next()
    {
        var batch = new LoopBatch(10);
        Send(25);
        await Fill(batch, Gather);
        Assert.Equal(10, batch.Arrivals.Length);
        await Fill(batch, Gather);
        Assert.Equal(10, batch.Arrivals.Length);
    }

    [Fact]
    public async Task An_event_does_not_wait_for_readings()
    {
        var batch = new LoopBatch(100);
        Send(3);
        Assert.True(source.Writer.TryWrite(new Arrival { Event = new CoolantSwitched(default, "M1", On: true) }));
        await Fill(batch, Gather);
        Assert.Equal(4, batch.Arrivals.Length);

        Send(3);
        var filling = Fill(batch, Gather);
        Assert.True(posted.Writer.TryWrite(new PostedEvent(new CoolantSwitched(default, "M1", On: true))));
        Send(1);
        await AdvanceUntilAsync(() => filling.IsCompleted);
        await filling;
        Assert.Equal((4, 1), (batch.Arrivals.Length, batch.Work.Count));
    }

    [Fact]
    public void A_tick_without_arrivals_does_not_wait_and_neither_does_a_loop_without_gathering()
    {
        var batch = new LoopBatch(100);
        Assert.True(Fill(batch, Gather).IsCompletedSuccessfully);
        Send(1);
        Assert.True(Fill(batch, TimeSpan.Zero).IsCompletedSuccessfully);
        Assert.Equal(1, batch.Arrivals.Length);
    }

    private async Task AdvanceUntilAsync(Func<bool> done)
    {
        for (var tries = 0; tries < 2000 && !done(); tries++)
        {
            time.Advance(TimeSpan.FromMilliseconds(3));
            await Task.Delay(2);
        }
    }

    private Task Fill(LoopBatch batch, TimeSpan gather) => batch.FillAsync(source.Reader, posted.Reader, gather, time, CancellationToken.None).AsTask();

    private void Send(int count)
    {
        for (var i = 0; i < count; i++)
        {
            Assert.True(source.Writer.TryWrite(new Arrival { Reading = new Reading(0, i, 20) }));
        }
    }
}
