using System.Globalization;
using System.Text;
using ClimateGuard.SystemTests.Support;
using Microsoft.Playwright;

namespace ClimateGuard.SystemTests;

/// <summary>The quality engineer's pages in a real browser: upload, preview, keep, read a verdict, take the report away.</summary>
public sealed class EvidencePageTests
{
    [Fact]
    public async Task A_file_is_uploaded_looked_at_kept_and_its_verdict_and_report_are_read()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port);
        await using var worker = new WorkerProcess();
        worker.StartRun(broker.Port, HandCell.Write());
        await worker.UntilReadyAsync();
        await bystander.SendAsync("cg/hand/reading/air/a1", "20.0");
        await HandInspection.CutAsync(worker, bystander, "S1");
        var page = await browser.OpenAsync(new Uri(worker.Address, "/evidence"), 1280, 1000);
        await page.GetByText("No inspection results of parts that were cut here have come in.").WaitForAsync(new() { Timeout = 30_000 });
        await page.ClickAsync("text=Import inspection results");
        await page.GetByText("The mapping of a new device").ClickAsync();
        await page.Locator("[data-field=mapping]:enabled").SetInputFilesAsync(Upload("cmm2.json", HandInspection.Mapping));
        await page.GetByText("The mapping of CMM-2 is saved and chosen.").WaitForAsync();

        await RefusedAsync(page);
        await UnknownAsync(page);
        Assert.DoesNotContain((await worker.GetAsync("/api/v1/ledger")).EnumerateArray(), line => line.GetRawText().Contains("Lochkreis", StringComparison.Ordinal));

        await page.Locator("[data-field=file]").SetInputFilesAsync(Upload("discs.csv", HandInspection.Holes("S1")));
        await page.GetByText("12 values of 1 serial").WaitForAsync();
        await ShopBrowser.PictureAsync(page, "evidence-preview.png", wholePage: true);
        await page.ClickAsync("[data-answer=keep]");
        await page.GetByText("12 values of discs.csv kept.").WaitForAsync();
        await page.Locator("[data-field=file]").SetInputFilesAsync(Upload("again.csv", HandInspection.Holes("S1")));
        await page.GetByText("This file came in before").WaitForAsync();

        await page.ClickAsync("text=All parts");
        await page.GetByText("1 feature of 1 part inspected").WaitForAsync(new() { Timeout = 60_000 });
        await VerdictAsync(browser, page);
        await page.GotoAsync(new Uri(worker.Address, "/evidence/sampling").ToString());
        await page.GetByText("Stays at 100 %: the part is critical.").WaitForAsync(new() { Timeout = 60_000 });
        Assert.Empty(browser.Errors);
        Assert.Empty(browser.Outside);
    }

    [Fact]
    public async Task On_the_friday_of_the_week_the_page_shows_the_disc_that_was_cut_under_an_override_and_no_feature_is_ready_for_sampling()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(15, "--story", "week", "--history", "none", "--from", "2026-07-10T13:54");
        await demo.UntilReadyAsync(400);
        await demo.UntilLogAsync("values taken, 1 overrides scored");

        var page = await browser.OpenAsync(new Uri(demo.Address, "/evidence"), 1280, 1000);
        await page.Locator(".waiting-bar").WaitForAsync(new() { Timeout = 60_000 });
        Assert.Matches(@"^Working it out, [a-z ]+: \d+ %\.$", (await page.Locator(".waiting").InnerTextAsync()).Trim());
        await ShopBrowser.PictureAsync(page, "evidence-waiting.png");
        await page.Locator(".quality-summary").WaitForAsync(new() { Timeout = 400_000 });
        await ShopBrowser.PictureAsync(page, "evidence-list.png");
        await page.ClickAsync("a:text('FD-1100-0442')");
        await page.Locator("article.verdict").WaitForAsync(new() { Timeout = 60_000 });
        var told = (await demo.GetAsync("/api/v1/evidence")).GetProperty("features").EnumerateArray().Single(one => one.GetProperty("serial").GetString() == "FD-1100-0442");
        Assert.Equal(told.GetProperty("level").GetInt32().ToString(CultureInfo.InvariantCulture), await page.Locator("article.verdict").GetAttributeAsync("data-level"));
        await page.GetByText(told.GetProperty("verdict").GetString()!).First.WaitForAsync();
        await page.GetByText("Would have been in tolerance at zero thermal effect").WaitForAsync();
        await page.GetByText("scale measured").First.WaitForAsync();
        await ShopBrowser.PictureAsync(page, "evidence-part.png", wholePage: true);
        var telephone = await browser.OpenAsync(new Uri(page.Url), 420, 900);
        await telephone.Locator("article.verdict").WaitForAsync(new() { Timeout = 60_000 });
        var width = await telephone.EvaluateAsync<int>("document.documentElement.scrollWidth");
        Assert.True(width <= 420, $"on a telephone the page is {width} pixels wide");

        await page.GotoAsync(new Uri(demo.Address, "/evidence/sampling").ToString());
        await page.Locator("article.sampling").First.WaitForAsync(new() { Timeout = 60_000 });
        Assert.Equal(0, await page.Locator("[data-answer=MayBeProposed]").CountAsync());
        await ShopBrowser.PictureAsync(page, "evidence-sampling.png");
        Assert.Empty(browser.Errors);
        Assert.Empty(browser.Outside);
    }

    // A broken line is named with its number, and a name from the file stays text.
    private static async Task RefusedAsync(IPage page)
    {
        await page.Locator("[data-field=file]").SetInputFilesAsync(Upload("<b>broken</b>.csv", HandInspection.Holes("S1") + "S1;Lochkreis;13;0,001;zwei\n"));
        await page.GetByText("<b>broken</b>.csv cannot be taken in; nothing was kept").WaitForAsync();
        await page.Locator(".refusal li").Filter(new() { HasText = "line 14:" }).First.WaitForAsync();
        Assert.Equal(0, await page.Locator("[data-answer=keep]").CountAsync());
        await page.Locator("[data-field=file]").SetInputFilesAsync(Upload("evil.csv", HandInspection.Holes("S1").Replace("Lochkreis", "<img src=x onerror=alert(1)>", StringComparison.Ordinal)));
        await page.GetByText("part DISC has no feature <img src=x onerror=alert(1)>").First.WaitForAsync();
    }

    private static async Task UnknownAsync(IPage page)
    {
        await page.Locator("[data-field=file]").SetInputFilesAsync(Upload("unknown.csv", HandInspection.Holes("S7")));
        await page.Locator("[data-list=notes] li").Filter(new() { HasText = "serial S7 is not known" }).WaitForAsync();
        Assert.True(await page.Locator("[data-answer=keep]").IsDisabledAsync());
        await page.ClickAsync("[data-answer=cancel]");
        await page.Locator(".preview").WaitForAsync(new() { State = WaitForSelectorState.Detached });
    }

    private static async Task VerdictAsync(ShopBrowser browser, IPage page)
    {
        await page.ClickAsync(".verdicts th a");
        await page.Locator("article.verdict").WaitForAsync(new() { Timeout = 60_000 });
        await page.GetByText("at zero thermal effect").First.WaitForAsync();
        await page.GetByText("The pattern taken apart").First.WaitForAsync();
        Assert.True(await page.Locator("figure.picture svg").CountAsync() >= 3);
        await page.GetByText("not validated, so no verdict goes beyond").WaitForAsync();
        await ShopBrowser.PictureAsync(page, "evidence-hand.png", wholePage: true);
        foreach (var (format, begin) in new[] { ("pdf", "%PDF-"), ("html", "<!DOCTYPE html>"), ("json", "{") })
        {
            var download = await page.RunAndWaitForDownloadAsync(() => page.ClickAsync($"[data-report={format}]"));
            var text = await File.ReadAllTextAsync(await download.PathAsync());
            Assert.StartsWith(begin, text, StringComparison.Ordinal);
        }

        Assert.Empty(browser.Errors);
    }

    private static FilePayload Upload(string name, string text) => new() { Name = name, MimeType = "text/plain", Buffer = Encoding.UTF8.GetBytes(text) };
}
