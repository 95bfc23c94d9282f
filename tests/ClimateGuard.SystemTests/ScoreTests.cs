using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>The scoreboard after a hold that a measurement confirmed, one that it refuted, and a missed part that inspection found.</summary>
public sealed class ScoreTests
{
    [Fact]
    public async Task A_hold_is_scored_on_the_page_over_HTTP_and_on_the_command_line_and_a_file_of_results_counts_once()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port);
        await using var worker = new WorkerProcess();
        var plant = HandCell.Write();
        await File.AppendAllTextAsync(plant, "\npolicies:\n  rates: { machinePerHour: 150, scrapPerPart: 9000, currency: EUR }\n");
        worker.StartRun(broker.Port, plant);
        await worker.UntilReadyAsync();
        await bystander.SendAsync("cg/hand/reading/air/a1", "20.7");
        await HoldAsync(worker, "S1", measuredCelsius: 26.0);
        await HoldAsync(worker, "S2", measuredCelsius: 20.0);
        await CutAsync(worker, "S3");

        var results = Grown("S3", micrometresPerMetre: 30);
        Assert.Equal(HttpStatusCode.OK, await SendResultsAsync(worker, results));
        Assert.Equal(HttpStatusCode.Conflict, await SendResultsAsync(worker, results));

        var file = Path.Combine(Path.GetDirectoryName(plant)!, "results.csv");
        await File.WriteAllTextAsync(file, results);
        var (again, _, refused) = await worker.RunOnFolderAsync("results", "--file", file, "--url", worker.Address.ToString());
        Assert.Equal((2, true), (again, refused.Contains("This file came in before", StringComparison.Ordinal)));

        var score = await worker.GetAsync("/api/v1/score");
        var (exitCode, output, errors) = await worker.RunOnFolderAsync("score", "--plant", plant, "--json");
        Assert.True(exitCode == 0, errors);
        foreach (var said in new[] { score, JsonSerializer.Deserialize<JsonElement>(output) })
        {
            var held = said.GetProperty("held");
            Assert.Equal((2, 1, 1, true), (Number(held, "holds"), Number(held, "confirmed"), Number(held, "refuted"), held.GetProperty("tooFewToSay").GetBoolean()));
            Assert.Equal("EUR", held.GetProperty("cost").GetProperty("currency").GetString());
            Assert.Equal("S3", Assert.Single(said.GetProperty("inspection").GetProperty("misses").EnumerateArray()).GetProperty("serial").GetString());
            Assert.Equal([1.0, 0.5], said.GetProperty("airLimits").EnumerateArray().Select(limit => limit.GetProperty("limitK").GetDouble()));
        }

        var page = await browser.OpenAsync(worker.Address);
        await page.ClickAsync("nav >> text=Scoreboard");
        await page.GetByText("Held: 2 holds; 1 confirmed, 1 refuted").WaitForAsync(new() { Timeout = 90_000 });
        await page.GetByText("1 had a thermal part above the budget without a hold").WaitForAsync();
        await page.GetByText("Air limit ±0.5 K").WaitForAsync();
        await ShopBrowser.PictureAsync(page, "scoreboard.png", wholePage: true);
        Assert.Empty(browser.Errors);
        Assert.Empty(browser.Outside);
    }

    [Fact]
    public async Task A_shadow_says_what_it_would_have_held()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port);
        await using var worker = new WorkerProcess();
        worker.StartRun(broker.Port, HandCell.Write(), more: ("Mode", "shadow"));
        await worker.UntilReadyAsync();
        await bystander.SendAsync("cg/hand/reading/air/a1", "20.0");
        await HoldAsync(worker, "S1", measuredCelsius: 26.0);

        var score = await worker.GetAsync("/api/v1/score");
        Assert.Equal((0, 1, 1), (
            Number(score.GetProperty("held"), "holds"), Number(score.GetProperty("wouldHaveHeld"), "holds"), Number(score.GetProperty("wouldHaveHeld"), "confirmed")));
        Assert.Equal(JsonValueKind.Null, score.GetProperty("wouldHaveHeld").GetProperty("cost").ValueKind);
    }

    private static async Task HoldAsync(WorkerProcess worker, string serial, double measuredCelsius)
    {
        await worker.PostAsync("/api/v1/machines/M1/job", Job(serial, 26.0, 0.5));
        await UntilAsync(worker, serial, "hold");
        await worker.PostAsync("/api/v1/permits", $$"""{"machine":"M1","serial":"{{serial}}","part":"DISC","operation":"40","requestId":"{{serial}}"}""");
        await Task.Delay(300);
        await worker.PostAsync("/api/v1/measurements", string.Create(
            CultureInfo.InvariantCulture, $$"""{"machine":"M1","kind":"contact","valueC":{{measuredCelsius}},"uC":0.02}"""));
    }

    private static async Task CutAsync(WorkerProcess worker, string serial)
    {
        await worker.PostAsync("/api/v1/machines/M1/job", Job(serial, 20.7, 0.1));
        await UntilAsync(worker, serial, "ready");
        await worker.PostAsync("/api/v1/events", $$"""{"type":"cutStarted","machine":"M1","serial":"{{serial}}","operation":"40"}""");
    }

    private static string Job(string serial, double startCelsius, double u) => string.Create(
        CultureInfo.InvariantCulture, $$"""{"serial":"{{serial}}","part":"DISC","operation":"40","startC":{{startCelsius}},"startU":{{u}}}""");

    private static async Task UntilAsync(WorkerProcess worker, string serial, string level)
    {
        JsonElement outlook = default;
        for (var tries = 0; tries < 100; tries++)
        {
            outlook = await worker.GetAsync("/api/v1/machines/M1/outlook");
            if (outlook.GetProperty("serial").GetString() == serial && outlook.GetProperty("level").GetString() == level)
            {
                return;
            }

            await Task.Delay(100);
        }

        Assert.Fail($"{serial} did not get to {level}: {outlook}");
    }

    // 12 holes at 400 mm that moved outwards by 0.4 m times the growth.
    private static string Grown(string serial, double micrometresPerMetre)
    {
        var text = new StringBuilder("serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm\n");
        for (var hole = 0; hole < 12; hole++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * hole / 12);
            text.AppendLine(CultureInfo.InvariantCulture, $"{serial},DISC,40,M1,holes,{hole + 1},,,{0.4 * micrometresPerMetre * cos:0.0000},{0.4 * micrometresPerMetre * sin:0.0000}");
        }

        return text.ToString();
    }

    private static async Task<HttpStatusCode> SendResultsAsync(WorkerProcess worker, string csv)
    {
        using var content = new StringContent(csv, Encoding.UTF8, "text/csv");
        using var answer = await worker.Http.PostAsync(new Uri("/api/v1/results", UriKind.Relative), content);
        return answer.StatusCode;
    }

    private static int Number(JsonElement element, string name) => element.GetProperty(name).GetInt32();
}
