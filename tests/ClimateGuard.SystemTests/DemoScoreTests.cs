using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>The Friday of the scripted week: what the inspection found is handed to the worker, and the scoreboard counts it.</summary>
public sealed partial class DemoScoreTests
{
    private const int LivedThrough = 240;

    [Fact]
    public async Task The_results_of_the_week_reach_the_scoreboard_on_friday_and_the_same_file_is_refused_a_second_time()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(15, "--story", "week", "--from", "2026-07-10T13:54");
        await demo.UntilReadyAsync(LivedThrough);

        var before = await demo.GetAsync("/api/v1/score");
        Assert.Equal(0, Number(before.GetProperty("inspection"), "features"));
        await demo.UntilLogAsync("values taken, 1 overrides scored");
        var after = await demo.GetAsync("/api/v1/score");

        var leases = (await demo.GetAsync("/api/v1/ledger?kind=lease")).EnumerateArray().Select(line => line.GetProperty("content")).ToArray();
        Assert.Single(leases, lease => lease.TryGetProperty("refused", out var refused) && refused.GetProperty("host").GetString() == "test-instance (invented)");
        Assert.Single(leases, lease => !lease.TryGetProperty("refused", out _));

        // A result neither confirms nor refutes a hold: the measurements at the machine did.
        foreach (var count in new[] { "holds", "confirmed", "refuted", "undecided", "notMeasured" })
        {
            Assert.Equal(Number(before.GetProperty("held"), count), Number(after.GetProperty("held"), count));
        }

        Assert.True(Number(after.GetProperty("held"), "confirmed") >= 12, after.ToString());
        Assert.True(Number(after.GetProperty("inspection"), "features") > 180, after.ToString());
        Assert.True(Number(after.GetProperty("inspection"), "notKnown") < 10, after.ToString());
        Assert.Equal("wrong", await OverrideOfThursdayAsync(demo));

        var file = FileOnPage().Match(await demo.Http.GetStringAsync(new Uri("/demo", UriKind.Relative))).Groups[1].Value;
        using var again = new StringContent(await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken), Encoding.UTF8, "text/csv");
        using var refused = await demo.Http.PostAsync(new Uri("/api/v1/results", UriKind.Relative), again, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        var (exitCode, _, errors) = await WorkerProcess.RunToEndAsync("results", "--file", file, "--url", demo.Address.ToString());
        Assert.Equal((2, true), (exitCode, errors.Contains("This file came in before", StringComparison.Ordinal)));

        var page = await browser.OpenAsync(new Uri(demo.Address, "/score"), 1100, 900);
        await page.GetByText("Air limit ±0.5 K").WaitForAsync(new() { Timeout = 90_000 });
        await page.WaitForTimeoutAsync(500);
        await ShopBrowser.PictureAsync(page, "demo-step10-score.png");
        Assert.Empty(browser.Errors);
    }

    private static async Task<string?> OverrideOfThursdayAsync(WorkerProcess demo)
    {
        var scored = Assert.Single(
            (await demo.GetAsync("/api/v1/ledger?kind=score&most=200")).EnumerateArray().Select(line => line.GetProperty("content")),
            score => score.TryGetProperty("override", out _));
        Assert.Equal("FD-1100-0442", scored.GetProperty("serial").GetString());
        return scored.GetProperty("override").GetString();
    }

    private static int Number(JsonElement element, string name) => element.GetProperty(name).GetInt32();

    [GeneratedRegex("<code>([^<]*demo-results\\.csv)</code>")]
    private static partial Regex FileOnPage();
}
