using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>The demo as a new user meets it: one command, a page, a hold that comes and goes.</summary>
public sealed class DemoTests
{
    [Fact]
    public async Task The_demo_reaches_a_hold_for_warm_coolant_and_its_clearing_while_the_page_follows_without_reload()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(speed: 120);
        await demo.UntilReadyAsync();
        var page = await browser.OpenAsync(demo.Address);

        var hold = page.Locator("article, section, li").Filter(new() { HasText = "M3" }).Filter(new() { HasText = "hold" }).First;
        await hold.WaitForAsync(new() { Timeout = 60_000 });
        await page.WaitForTimeoutAsync(500);
        await ShopBrowser.PictureAsync(page, "floor-hold.png");
        await page.GotoAsync(new Uri(demo.Address, "/machine/M3").ToString());
        await page.Locator(".js-plotly-plot .scatterlayer").First.WaitForAsync(new() { Timeout = 30_000 });
        await page.WaitForTimeoutAsync(3000);
        await ShopBrowser.PictureAsync(page, "machine-hold.png");

        await UntilAsync(demo, "M3", level => level is "ready" or "watch");

        Assert.Empty(browser.Errors);
        Assert.Empty(browser.Outside);
    }

    private static async Task UntilAsync(WorkerProcess demo, string machine, Func<string, bool> wanted)
    {
        for (var tries = 0; tries < 900; tries++)
        {
            var outlook = await demo.GetAsync($"/api/v1/machines/{machine}/outlook");
            if (wanted(outlook.GetProperty("level").GetString()!))
            {
                return;
            }

            await Task.Delay(100);
        }

        Assert.Fail($"{machine} did not get there: {demo.Log}");
    }
}
