using System.Net;
using System.Text;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;
using Microsoft.Playwright;

namespace ClimateGuard.SystemTests;

/// <summary>The technician's page in a real browser, on the Wednesday of the scripted week: a loaded filter in a heat wave.</summary>
public sealed class AirPageTests
{
    private const int LivedThrough = 240;

    [Fact]
    public async Task The_technician_reads_the_finding_answers_its_check_and_closes_it()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(30, "--story", "week", "--history", "none", "--from", "2026-07-08T16:00");
        await demo.UntilReadyAsync(LivedThrough);
        var page = await browser.OpenAsync(new Uri(demo.Address, "/air"), 1280, 1000);
        var block = page.Locator("article.finding").Filter(new() { HasText = "Filter loaded" });
        await block.WaitForAsync(new() { Timeout = 90_000 });
        await block.GetByText("Read the filter pressure gauge and look at the filter.", new() { Exact = true }).First.WaitForAsync();
        await block.GetByText("gauge, torch").First.WaitForAsync();
        await block.GetByText("At risk:").WaitForAsync();
        await page.Locator(".js-plotly-plot .scatterlayer").First.WaitForAsync(new() { Timeout = 60_000 });
        await page.GetByText("Judged up to").WaitForAsync(new() { Timeout = 60_000 });
        await page.WaitForTimeoutAsync(2000);
        await ShopBrowser.PictureAsync(page, "air-filter.png");
        var id = (await block.GetAttributeAsync("data-finding"))!;

        await block.GetByText("What did you find?").ClickAsync();
        await block.Locator("[data-field=by]").FillAsync("T. Auer");
        var button = block.Locator("[data-answer=seen]");
        Assert.True((await button.BoundingBoxAsync())!.Height >= 56, "a gloved hand needs 56 pixels");
        await button.ClickAsync();
        await block.GetByText("Taken in. The ranking counts with it.").WaitForAsync();
        var answered = await FindingAsync(demo, "findings", id);
        Assert.True(Assert.Single(answered.GetProperty("answers").EnumerateArray()).GetProperty("seen").GetBoolean());
        Assert.True(answered.GetProperty("probability").GetDouble() > 0.99);

        await block.Locator("[data-field=fixed]").FillAsync("changed the filter <b>twice</b>");
        await block.Locator("[data-answer=close]").ClickAsync();
        await page.GetByText("closed with its cause: filter loaded, T. Auer: changed the filter <b>twice</b>").WaitForAsync(new() { Timeout = 30_000 });
        var closed = await FindingAsync(demo, "closed", id);
        Assert.Equal(("F07", "T. Auer"), (closed.GetProperty("verified").GetString(), closed.GetProperty("by").GetString()));

        await RefusalsAsync(demo, id);
        var excursion = (await demo.GetAsync("/api/v1/excursions")).GetProperty("excursions").EnumerateArray().First(e => e.GetProperty("zone").GetString() == "N");
        Assert.Equal(JsonValueKind.Null, excursion.GetProperty("end").ValueKind);
        Assert.Contains(excursion.GetProperty("jobs").EnumerateArray(), job => job.GetProperty("serial").GetString() == "OB-900-0077");
        Assert.Empty(browser.Errors);
        Assert.Empty(browser.Outside);
    }

    [Fact]
    public async Task On_the_tuesday_of_the_week_the_page_says_that_the_loop_hunts_and_shows_it()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(30, "--story", "week", "--history", "none", "--from", "2026-07-07T17:00", "--seed", "1");
        await demo.UntilReadyAsync(LivedThrough);
        var page = await browser.OpenAsync(new Uri(demo.Address, "/air"), 1280, 1000);
        var block = page.Locator("article.finding").Filter(new() { HasText = "Control hunting" });
        await block.WaitForAsync(new() { Timeout = 120_000 });
        await block.GetByText("ahu2", new() { Exact = true }).WaitForAsync();
        await block.GetByText("the room swings by").WaitForAsync();
        await page.Locator(".js-plotly-plot .scatterlayer").Nth(1).WaitForAsync(new() { Timeout = 60_000 });
        await page.WaitForTimeoutAsync(2000);
        await ShopBrowser.PictureAsync(page, "air-hunting.png");
        var telephone = await browser.OpenAsync(new Uri(demo.Address, "/air"), 420, 900);
        await telephone.Locator(".js-plotly-plot .scatterlayer").Nth(1).WaitForAsync(new() { Timeout = 60_000 });
        await telephone.GetByText("What did you find?").First.ClickAsync();
        var width = await telephone.EvaluateAsync<int>("document.documentElement.scrollWidth");
        Assert.True(width <= 420, $"on a telephone the page is {width} pixels wide");

        Assert.Empty(browser.Errors);
    }

    private static async Task RefusalsAsync(WorkerProcess demo, string id)
    {
        Assert.Equal(HttpStatusCode.Conflict, await SayAsync(demo, id, """{"by":"T. Auer","seen":true}"""));
        Assert.Equal(HttpStatusCode.NotFound, await SayAsync(demo, "F99-nowhere", """{"by":"T. Auer","seen":true}"""));
        Assert.Equal(HttpStatusCode.BadRequest, await SayAsync(demo, id, """{"seen":true}"""));
        Assert.Equal(HttpStatusCode.BadRequest, await SayAsync(demo, id, """{"by":"T. Auer","close":true,"verified":"F77"}"""));
        Assert.Equal(HttpStatusCode.BadRequest, await SayAsync(demo, id, $$"""{"by":"{{new string('x', 300)}}","seen":true}"""));
        using var client = new HttpClient { BaseAddress = demo.Address };
        using var asked = await client.GetAsync("/api/v1/excursions?from=2026-07-09T00:00:00Z&to=2026-07-08T00:00:00Z", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, asked.StatusCode);
    }

    private static async Task<HttpStatusCode> SayAsync(WorkerProcess demo, string id, string body)
    {
        using var client = new HttpClient { BaseAddress = demo.Address };
        using var content = new StringContent(body, Encoding.UTF8, "application/json");
        using var answer = await client.PostAsync($"/api/v1/findings/{id}/outcome", content, TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    private static async Task<JsonElement> FindingAsync(WorkerProcess demo, string list, string id) =>
        (await demo.GetAsync("/api/v1/findings")).GetProperty(list).EnumerateArray().Single(finding => finding.GetProperty("id").GetString() == id);
}
