using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.History;

public sealed class DamagedMonthTests
{
    [Fact]
    public async Task A_damaged_month_is_set_aside_at_the_start_and_ready_says_where_it_lies_without_failing()
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-damaged-").FullName;
        var month = Path.Combine(folder, "history-2026-02.db");
        await File.WriteAllTextAsync(month, new string('x', 10_000));
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerProcess(folder);
        worker.StartRun(broker.Port, HandCell.Write());
        await worker.UntilReadyAsync();

        using var answer = await worker.Http.GetAsync("/health/ready");
        Assert.True(answer.IsSuccessStatusCode);
        Assert.StartsWith($"ready\nA file of the history was damaged and now lies at {month}.", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.False(File.Exists(month));
    }
}
