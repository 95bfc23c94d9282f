using System.Globalization;
using System.Net;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>A door that stands open, through the real program: from the history, over the broker, across a kill, and closed by a person.</summary>
public sealed class FindingsTests
{
    private const string Plant = """
        version: 1
        cell: hand
        zones:
          - { id: main, airHandlers: [ahu] }
        airHandlers:
          - { id: ahu, medium: chilledWater, outdoorAir: false, points: { coolingCommand: ahu/valve } }
        sensors:
          - { id: air/a1, quantity: temperature, place: air, zone: main }
          - { id: ahu/valve, quantity: fraction, place: command, airHandler: ahu, unit: fraction }
          - { id: door/d1, quantity: contact, place: door, zone: main, reportsOnChange: true }
        machines:
          - id: M1
            zone: main
            scale: { alpha: 11.5 }
        """;

    [Fact]
    public async Task An_open_door_is_found_in_the_history_told_kept_over_a_kill_and_closed_by_a_person()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port, "cg/hand/finding");
        await using var worker = new WorkerProcess();
        var plant = Path.Combine(Directory.CreateTempSubdirectory("climateguard-plant-").FullName, "plant.yaml");
        await File.WriteAllTextAsync(plant, Plant, TestContext.Current.CancellationToken);
        var (exitCode, _, errors) = await worker.RunOnFolderAsync("import", WriteHistory(Path.GetDirectoryName(plant)!), "--plant", plant);
        Assert.True(exitCode == 0, errors);
        worker.StartRun(broker.Port, plant);
        await worker.UntilReadyAsync();

        var told = JsonSerializer.Deserialize<JsonElement>((await bystander.WaitForAsync(m => m.Topic == "cg/hand/finding", "the finding")).Payload);
        var id = told.GetProperty("id").GetString()!;
        Assert.Equal(
            ("F16", "open", "ahu", "door/d1", "No job is loaded in zone main now."),
            (told.GetProperty("finding").GetString(), told.GetProperty("state").GetString(), told.GetProperty("airHandler").GetString(),
                told.GetProperty("sensor").GetString(), told.GetProperty("impact").GetProperty("text").GetString()));

        await worker.KillAsync();
        worker.StartAgain();
        await worker.UntilReadyAsync();
        await Eventually.UntilAsync(async () => (await FindingsAsync(worker)).GetArrayLength() > 0, "the finding is there again");
        Assert.Equal(id, Assert.Single((await FindingsAsync(worker)).EnumerateArray()).GetProperty("id").GetString());

        bystander.Forget();
        var (status, body) = await worker.PostAsync($"/api/v1/findings/{id}/outcome", """{"by":"T. Auer","close":true,"verified":"F16","fixedBy":"closed it"}""");
        Assert.Equal((HttpStatusCode.OK, "closed", "F16"), (status, body.GetProperty("state").GetString(), body.GetProperty("verified").GetString()));
        await bystander.WaitForAsync(m => m.Payload.Contains("\"state\":\"closed\"", StringComparison.Ordinal), "the closing");

        await worker.KillAsync();
        worker.StartAgain();
        await worker.UntilReadyAsync();
        await Eventually.UntilAsync(async () => (await worker.GetAsync("/api/v1/findings")).GetProperty("closed").GetArrayLength() > 0, "what was closed is there again");
        var after = await worker.GetAsync("/api/v1/findings");
        Assert.Empty(after.GetProperty("findings").EnumerateArray());
        Assert.Equal("closed it", Assert.Single(after.GetProperty("closed").EnumerateArray()).GetProperty("fixedBy").GetString());
        Assert.Equal(0, (await worker.LedgerVerifyAsync()).ExitCode);
        Assert.Contains("/api/v1/findings/{id}/outcome", (await worker.GetAsync("/openapi/v1.json")).GetProperty("paths").EnumerateObject().Select(path => path.Name));
    }

    private static async Task<JsonElement> FindingsAsync(WorkerProcess worker) => (await worker.GetAsync("/api/v1/findings")).GetProperty("findings");

    // Four hours up to now; the door stands open for the last 25 minutes.
    private static string WriteHistory(string folder)
    {
        var now = DateTimeOffset.UtcNow;
        var file = Path.Combine(folder, "history.csv");
        using var rows = new StreamWriter(file);
        rows.WriteLine("time,sensor,value,unit");
        for (var minute = 240; minute > 0; minute--)
        {
            var time = now.AddMinutes(-minute).ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture);
            rows.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{time},air/a1,{20 + (0.02 * Math.Sin(minute / 9.0)):0.000},C"));
            rows.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{time},ahu/valve,{0.4 + (0.05 * Math.Sin(minute / 5.0)):0.000},fraction"));
            if (minute is 240 or 180 or 120 or 60) rows.WriteLine($"{time},door/d1,0,open");
            if (minute is 25) rows.WriteLine($"{time},door/d1,1,open");
        }

        return file;
    }
}
