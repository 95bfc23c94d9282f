using ClimateGuard.Worker.Pages.Live;
using Microsoft.Extensions.Time.Testing;

namespace ClimateGuard.Tests.Worker.Pages;

public sealed class LiveViewTests
{
    private readonly FakeTimeProvider time = new();

    [Fact]
    public void Many_snapshots_become_four_updates_a_second_and_the_last_one_is_seen()
    {
        var cell = new LiveCell(time);
        using var view = new LiveView(cell, time);
        var updates = 0;
        view.Changed += () => updates++;
        var last = InventedCell.At(InventedCell.TenPastTen);
        for (var i = 0; i < 200; i++)
        {
            last = last with { Time = last.Time.AddSeconds(1) };
            cell.Show(last);
            time.Advance(TimeSpan.FromMilliseconds(5));
        }

        time.Advance(TimeSpan.FromMilliseconds(250));
        Assert.InRange(updates, 4, 5);
        Assert.Same(last, view.Snapshot);
    }

    [Fact]
    public void A_first_snapshot_after_a_quiet_time_is_seen_at_once()
    {
        var cell = new LiveCell(time);
        using var view = new LiveView(cell, time);
        var updates = 0;
        view.Changed += () => updates++;
        time.Advance(TimeSpan.FromSeconds(5));
        cell.Show(InventedCell.At(InventedCell.TenPastTen));
        time.Advance(TimeSpan.FromMilliseconds(1));
        Assert.Equal(1, updates);
    }

    [Fact]
    public void A_silent_worker_is_noticed_without_any_news_and_believed_again_when_it_speaks()
    {
        var cell = new LiveCell(time);
        cell.Show(InventedCell.At(InventedCell.TenPastTen));
        using var view = new LiveView(cell, time);
        var told = 0;
        view.Changed += () => told++;
        time.Advance(TimeSpan.FromSeconds(14));
        Assert.False(view.IsOld);
        time.Advance(TimeSpan.FromSeconds(3));
        Assert.True(view.IsOld);
        Assert.Equal(1, told);
        cell.Show(InventedCell.At(InventedCell.TenPastTen));
        time.Advance(TimeSpan.FromSeconds(1));
        Assert.False(view.IsOld);
    }

    [Fact]
    public void A_page_that_is_gone_hears_nothing_more()
    {
        var cell = new LiveCell(time);
        var view = new LiveView(cell, time);
        var updates = 0;
        view.Changed += () => updates++;
        view.Dispose();
        cell.Show(InventedCell.At(InventedCell.TenPastTen));
        time.Advance(TimeSpan.FromSeconds(30));
        Assert.Equal(0, updates);
    }

    [Fact]
    public async Task Showing_from_many_threads_leaves_every_view_with_a_whole_snapshot()
    {
        var cell = new LiveCell(TimeProvider.System);
        using var view = new LiveView(cell, TimeProvider.System);
        var seen = new TaskCompletionSource();
        view.Changed += () => seen.TrySetResult();
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() =>
        {
            for (var i = 0; i < 25; i++)
            {
                cell.Show(InventedCell.At(InventedCell.TenPastTen.AddSeconds(i)), i % 2 == 0);
            }
        })));
        await seen.Task.WaitAsync(TimeSpan.FromSeconds(10));
        Assert.NotNull(view.Snapshot);
    }
}
