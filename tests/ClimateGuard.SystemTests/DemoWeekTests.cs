using ClimateGuard.SystemTests.Support;
using Microsoft.Playwright;

namespace ClimateGuard.SystemTests;

/// <summary>The scripted week as a visitor is shown it: joined at a moment, looked at in a real browser, disturbed by a button.</summary>
public sealed class DemoWeekTests
{
    private const int LivedThrough = 240;
    private const int Width = 1100;
    private const int Height = 665;

    [Fact]
    public async Task A_button_makes_a_blank_come_in_cold_and_the_floor_page_holds_it()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(speed: 20);
        await demo.UntilReadyAsync(LivedThrough);
        var page = await browser.OpenAsync(new Uri(demo.Address, "/demo"), Width, Height);
        await page.GetByText("All data here is invented").WaitForAsync();

        // The page is drawn anew when it begins to listen; before that a button has no place that stays.
        var button = page.Locator("[data-incident=cold-blank]:not([disabled])");
        await button.WaitForAsync();
        var box = await button.BoundingBoxAsync();
        Assert.True(box!.Height >= 56, $"a gloved hand needs 56 pixels, the button has {box.Height}");

        await button.ClickAsync();
        await page.GetByText("it happens with the next step").WaitForAsync();
        await page.SetViewportSizeAsync(Width, 1120);
        await page.EvaluateAsync("scrollTo(0, 0)");
        await ShopBrowser.PictureAsync(page, "demo-buttons.png");
        await page.GotoAsync(demo.Address.ToString());
        await Entry(page, "PC-620-VISIT").WaitForAsync(new() { Timeout = 60_000 });
        await HeldAsync(demo, "M2");

        Assert.Empty(browser.Errors);
    }

    [Fact]
    public async Task A_button_takes_the_broker_away_and_the_page_says_that_nothing_comes()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(speed: 60);
        await demo.UntilReadyAsync(LivedThrough);
        var page = await browser.OpenAsync(new Uri(demo.Address, "/demo"), Width, Height);
        await UntilAsync(demo, "M3", level => level is not ("not known" or "no job"));
        await page.Locator("[data-incident=outage]").ClickAsync();
        await page.GetByText("it happens with the next step").WaitForAsync();
        await page.GotoAsync(demo.Address.ToString());
        await page.Locator("article, section, li").Filter(new() { HasText = "not known" }).Filter(new() { HasText = "is silent for" }).First.WaitForAsync(new() { Timeout = 60_000 });
        await ShopBrowser.PictureAsync(page, "demo-step8-outage.png");
    }

    [Theory]
    [InlineData("2026-07-08T19:18", "M2", "hold", "demo-step3-wed-1920.png")]
    [InlineData("2026-07-09T09:45", "M3", "hold", "demo-step5-thu-0946.png")]
    public async Task The_week_is_joined_at_a_moment_and_stands_as_the_story_says(string from, string machine, string levels, string picture)
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(30, "--story", "week", "--history", "none", "--from", from);
        await demo.UntilReadyAsync(LivedThrough);
        var page = await browser.OpenAsync(new Uri(demo.Address, $"/machine/{machine}"), Width, Height);
        await UntilAsync(demo, machine, level => levels.Split(',').Contains(level));
        await page.Locator(".js-plotly-plot .scatterlayer").First.WaitForAsync(new() { Timeout = 30_000 });
        await page.WaitForTimeoutAsync(2000);
        await ShopBrowser.PictureAsync(page, picture);

        Assert.Empty(browser.Errors);
        Assert.Empty(browser.Outside);
    }

    private static ILocator Entry(IPage page, string text) => page.Locator("article, section, li").Filter(new() { HasText = text }).First;

    private static Task HeldAsync(WorkerProcess demo, string machine) => UntilAsync(demo, machine, level => level == "hold");

    private static async Task UntilAsync(WorkerProcess demo, string machine, Func<string, bool> wanted)
    {
        var last = "";
        for (var tries = 0; tries < 600; tries++)
        {
            last = (await demo.GetAsync($"/api/v1/machines/{machine}/outlook")).GetProperty("level").GetString()!;
            if (wanted(last)) return;
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        Assert.Fail($"{machine} is {last}: {demo.Log}");
    }
}
