using System.Globalization;
using System.Net;
using System.Text.Json;
using ClimateGuard.Simulator;
using ClimateGuard.SystemTests.Support;
using Microsoft.Playwright;

namespace ClimateGuard.SystemTests;

/// <summary>What the air will be and what a zone is as a room, in a real browser, over six days of the published reference room as history.</summary>
public sealed class AirForecastTests
{
    private const int Day = 24 * 60;
    private const int Days = 6;

    [Fact]
    public async Task The_technician_reads_the_coming_hours_and_asks_for_one_more_machine()
    {
        await using var browser = await ShopBrowser.StartAsync();
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerProcess();
        var (plant, history) = Write(DateTimeOffset.UtcNow);
        var (exitCode, _, errors) = await worker.RunOnFolderAsync("import", history, "--plant", plant);
        Assert.True(exitCode == 0, errors);
        worker.StartRun(broker.Port, plant);
        await worker.UntilReadyAsync();

        var page = await browser.OpenAsync(new Uri(worker.Address, "/air"), 1280, 1000);
        var zone = page.Locator("[data-zone=N]");
        await zone.GetByText("9 in 10 within").First.WaitForAsync(new() { Timeout = 60_000 });
        await zone.Locator(".room ul").First.WaitForAsync(new() { Timeout = 180_000 });
        var text = await zone.InnerTextAsync();
        Assert.Contains("kW of cooling are left", text, StringComparison.Ordinal);
        Assert.Matches(@"In an hour [\d.]+ °C( as now)?, 9 in 10 within [\d.]+ to [\d.]+\.", text);
        Assert.Matches(@"Of 90 in 100 it held \d+ \(\d+ told in control\)", text);
        Assert.Matches(@"Stated set-back Mon 22:00 to Tue 04:00 and 6 more like it, at 22\.6 °C: .*; at most [\d.]+ h of the shift from 06:00 are lost\.", text);
        var machine = zone.Locator("[data-field=machine-kw]");
        await machine.FillAsync("14");
        await machine.PressAsync("Enter");
        await zone.GetByText("One more machine of 14 kW on a usual day").WaitForAsync();
        await machine.FillAsync("-3");
        await machine.PressAsync("Enter");
        await zone.GetByText("A power from 0 to 1000 kW is allowed; the answer above is still for 14 kW.").WaitForAsync();
        await zone.GetByText("The zone as a room: what is known of it").ClickAsync();
        await zone.GetByText("no decision knows of it").WaitForAsync();
        await page.Locator(".js-plotly-plot .scatterlayer").First.WaitForAsync(new() { Timeout = 60_000 });
        await page.Locator(".legendtext").GetByText("zone N, expected").WaitForAsync();
        await page.WaitForTimeoutAsync(1000);
        await ShopBrowser.PictureAsync(page, "air-forecast.png", wholePage: true);

        await ContractAsync(worker);
        Assert.Empty(browser.Errors);
        Assert.Empty(browser.Outside);
    }

    private static async Task ContractAsync(WorkerProcess worker)
    {
        var forecast = (await worker.GetAsync("/api/v1/forecast?zone=N")).GetProperty("zones").EnumerateArray().Single();
        Assert.Equal(9, forecast.GetProperty("points").GetArrayLength());
        Assert.Equal(240, forecast.GetProperty("points")[8].GetProperty("aheadMinutes").GetInt32());
        var room = (await worker.GetAsync("/api/v1/room?zone=N&machineKw=14")).GetProperty("zones").EnumerateArray().Single();

        // The reference room's supply air carries 6.05 kW/K and its loads are heat: 14 kW are 14 kW.
        var flow = room.GetProperty("parameters").EnumerateArray().Single(p => p.GetProperty("parameter").GetString() == "fullFlow");
        Assert.InRange(flow.GetProperty("value").GetDouble(), 6050 * 0.8, 6050 * 1.2);
        Assert.InRange(room.GetProperty("usualDay").GetProperty("oneMoreMachine").GetProperty("heatKw").GetDouble(), 11, 16);
        Assert.Equal(7, room.GetProperty("setBacks").GetArrayLength());
        foreach (var (path, status) in new[]
        {
            ("forecast?zone=X", HttpStatusCode.NotFound), ("room?zone=X", HttpStatusCode.NotFound), ("room?machineKw=-1", HttpStatusCode.BadRequest), ("room?machineKw=1e9", HttpStatusCode.BadRequest),
        })
        {
            using var answer = await worker.Http.GetAsync($"/api/v1/{path}", TestContext.Current.CancellationToken);
            Assert.Equal(status, answer.StatusCode);
        }

        var paths = (await worker.GetAsync("/openapi/v1.json")).GetProperty("paths").EnumerateObject().Select(path => path.Name).ToList();
        Assert.Contains("/api/v1/forecast", paths);
        Assert.Contains("/api/v1/room", paths);
    }

    private static (string Plant, string History) Write(DateTimeOffset now)
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-room-").FullName;
        var (plant, history) = (Path.Combine(folder, "plant.yaml"), Path.Combine(folder, "history.csv"));

        // The clock of the cell stands at about three in the afternoon whenever this runs, in the middle of a shift.
        var ahead = TimeSpan.FromHours(15 - now.UtcDateTime.Hour);
        File.WriteAllText(plant, Plant(ahead.Hours));
        using var rows = new StreamWriter(history);
        rows.WriteLine("time,sensor,value,unit");
        var midnight = new DateTimeOffset((now + ahead).UtcDateTime.Date, TimeSpan.Zero) - ahead - TimeSpan.FromDays(Days);
        WriteRows(rows, midnight, (int)(now - midnight).TotalMinutes);
        return (plant, history);
    }

    private static void WriteRows(StreamWriter rows, DateTimeOffset begin, int minutes)
    {
        var room = new ReferenceRoom();
        var random = new Random(11);
        for (var minute = -Day; minute < minutes; minute++)
        {
            var clock = (minute + Day) % Day;
            var running = clock is >= 360 and < 1320;
            room.North.LoadWatts = 3000 + (running ? 9000 + ((minute + Day) / 47 % 3 * 4500) : 800);
            room.South.LoadWatts = 3000 + (running ? 20_000 + ((minute + Day) / 61 % 4 * 4000) : 1400);
            room.North.SetpointCelsius = clock is < 240 or >= 1320 ? 22.6 : 20;
            room.North.FlowShare = clock is >= 700 and < 712 ? 0 : 1;
            var hall = 23 + (4 * Math.Cos(2 * Math.PI * (clock - 960) / Day));
            room.Advance(hall);
            if (minute < 0) continue;
            var time = begin.AddMinutes(minute).ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture);
            Row("air/n1", Seen(room.North.AirCelsius), "C");
            Row("air/s1", Seen(room.South.AirCelsius), "C");
            Row("ahu/sup", Seen(room.North.SupplyCelsius), "C");
            Row("hall/n", Seen(hall), "C");
            Row("m1/power", (room.North.LoadWatts / 1000) + (0.05 * random.NextDouble()), "kW");
            Row("ahu/setpoint", room.North.SetpointCelsius, "C");
            Row("ahu/speed", room.North.FlowShare, "fraction");

            void Row(string sensor, double value, string unit) => rows.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{time},{sensor},{value:0.000},{unit}"));
        }

        double Seen(double celsius) => celsius + (0.02 * (random.NextDouble() - 0.5));
    }

    private static string Plant(int hoursAhead)
    {
        string[] days = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
        var setBacks = string.Join("\n", days.Select((day, i) => $"      - {{ from: {day} 22:00, until: {days[(i + 1) % 7]} 04:00, setpointC: 22.6 }}"));

        // In names of this kind a minus stands for a clock that is ahead.
        return $$"""
            version: 1
            cell: room
            timeZone: Etc/GMT{{(hoursAhead >= 0 ? "-" : "+")}}{{Math.Abs(hoursAhead)}}
            zones:
              - id: N
                airHandlers: [ahu]
                setBacks:
            {{setBacks}}
              - { id: S }
            airHandlers:
              - id: ahu
                medium: chilledWater
                outdoorAir: false
                points: { supply: ahu/sup, coolingSetpoint: ahu/setpoint, fanSpeed: ahu/speed }
            sensors:
              - { id: air/n1, quantity: temperature, place: air, zone: N, periodS: 60 }
              - { id: air/s1, quantity: temperature, place: air, zone: S, periodS: 60 }
              - { id: ahu/sup, quantity: temperature, place: supply, airHandler: ahu, periodS: 60 }
              - { id: hall/n, quantity: temperature, place: hall, zone: N, periodS: 60 }
              - { id: ahu/setpoint, quantity: temperature, place: command, airHandler: ahu, periodS: 60 }
              - { id: ahu/speed, quantity: fraction, place: command, airHandler: ahu, unit: fraction, periodS: 60 }
              - { id: m1/power, quantity: power, place: command, machine: M1, unit: kW, plausible: [0, 100], periodS: 60 }
            machines:
              - id: M1
                zone: N
                scale: { alpha: 11.5 }
            policies:
              shifts:
                - { name: early, from: "06:00", to: "14:00" }
            """;
    }
}
