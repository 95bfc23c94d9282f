using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using ClimateGuard.SystemTests.Support;
using Microsoft.Playwright;

namespace ClimateGuard.SystemTests;

/// <summary>Wednesday 13:00 of the scripted week, as a person at M2 goes through it: measure first, span probe, offset, go.</summary>
public sealed partial class DemoOffsetTests
{
    private const int LivedThrough = 240;
    private const string Request = """{"machine":"M2","serial":"OB-900-0077","part":"OB-900","operation":"40","feature":"dowels","requestId":"$"}""";

    [Fact]
    public async Task A_span_probe_entered_at_M2_brings_an_offset_and_once_a_setter_has_set_it_the_control_is_answered_go()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var demo = new WorkerProcess();
        demo.StartDemo(2, "--story", "week", "--history", "none", "--from", "2026-07-08T12:58");
        await demo.UntilReadyAsync(LivedThrough);
        var page = await browser.OpenAsync(new Uri(demo.Address, "/machine/M2"), 1100, 1000);
        await UntilLevelAsync(demo, "measure first");
        Assert.Equal("MEASURE", await AnswerAsync(demo, "visit-1"));
        await page.GetByText("then an offset can be proposed").First.WaitForAsync();
        await page.WaitForTimeoutAsync(1500);
        await ShopBrowser.PictureAsync(page, "demo-step2-wed-1300.png");

        var (length, error) = await WouldReadAsync(demo);
        await page.FillAsync("[name=lengthMm]", length);
        await page.FillAsync("[name=errorUm]", error);
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter" }).ClickAsync();
        await page.GetByText("Taken in.").WaitForAsync();
        await page.GetByText("Offset, for the setter").WaitForAsync();

        await page.FillAsync("[name=by]", "R. Lindt");
        await page.GetByText("I have set it at the control").ClickAsync();
        await page.GetByText("Noted. The next request").WaitForAsync();
        await UntilLevelAsync(demo, "ready", "watch");
        Assert.Equal("GO_WITH_OFFSET", await AnswerAsync(demo, "visit-2"));
        await page.GetByText("Start the finish cut with the offset that is set.").First.WaitForAsync();
        await page.SetViewportSizeAsync(1280, 900);
        await page.EvaluateAsync("scrollTo(0, 0)");
        await page.WaitForTimeoutAsync(500);
        await ShopBrowser.PictureAsync(page, "demo-step2-offset.png");

        // The datum probed anew takes the shift away, and with it the permit.
        await demo.PostAsync("/api/v1/events", """{"type":"datumProbed","machine":"M2","axes":["x","y","z"]}""");
        Assert.NotEqual("GO_WITH_OFFSET", await AnswerAsync(demo, "visit-3"));
        Assert.Empty(browser.Errors);
    }

    private static async Task<(string Length, string Error)> WouldReadAsync(WorkerProcess demo)
    {
        var text = WebUtility.HtmlDecode(await demo.Http.GetStringAsync(new Uri("/demo", UriKind.Relative)));
        var found = Reading().Match(text);
        Assert.True(found.Success, text);
        Assert.InRange(double.Parse(found.Groups[2].Value, CultureInfo.InvariantCulture), 2, 20);
        return (found.Groups[1].Value, found.Groups[2].Value);
    }

    private static async Task<string?> AnswerAsync(WorkerProcess demo, string id)
    {
        var (status, answer) = await demo.PostAsync("/api/v1/permits", Request.Replace("$", id, StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.OK, status);
        return answer.GetProperty("answer").GetString();
    }

    private static async Task UntilLevelAsync(WorkerProcess demo, params string[] levels)
    {
        var last = "";
        for (var tries = 0; tries < 300; tries++)
        {
            last = (await demo.GetAsync("/api/v1/machines/M2/outlook")).ToString();
            if (levels.Any(level => last.Contains($"\"level\":\"{level}\"", StringComparison.Ordinal))) return;
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        Assert.Fail(last);
    }

    [GeneratedRegex("OB-900-0077: ([0-9]+) mm would read <strong>([0-9.]+) µm")]
    private static partial Regex Reading();
}
