using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Replay;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Edges.Replay;

/// <summary>Findings and excursions in a replay: the same bytes from the same files, stopped or not.</summary>
public sealed class ReplayOfTheAirTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly Cell Cell = CellWithDoor();
    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-replay-air-").FullName;

    // Five hours; the door stands open from 09:00 to 09:20 and the room leaves its band of 1 K from 09:05 to 09:30.
    public ReplayOfTheAirTests()
    {
        var rows = new List<string> { "time,sensor,value,unit" };
        for (var second = 0; second < 5 * 3600; second += 30)
        {
            var minute = second / 60;
            Row(rows, second, "air/a1", minute is >= 185 and < 210 ? 21.6 : 20.0 + (0.02 * Math.Sin(second / 700.0)), "C");
            Row(rows, second, "air/a2", minute is >= 185 and < 210 ? 21.6 : 20.01, "C");
            Row(rows, second, "valve", minute % 7 / 20.0 + 0.3, "fraction");
            if (second % 300 == 0) Row(rows, second, "door", minute is >= 180 and < 200 ? 1 : 0, "open");
        }

        File.WriteAllLines(At("readings.csv"), rows);
        File.WriteAllLines(At("events.jsonl"),
        [
            """{"time":"2026-03-02T06:05:00Z","type":"job","machine":"M1","serial":"S1","part":"D-1","operation":"40","startC":20.0,"startU":0.1}""",
            """{"time":"2026-03-02T09:12:00Z","type":"findingOutcome","finding":"F16-door-202603020905","by":"T. Auer","seen":true}""",
        ]);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task An_open_door_is_told_answered_and_over_and_the_air_that_left_its_band_has_its_job()
    {
        var lines = Lines(await ReplayAsync("out"));

        var findings = lines.Where(line => Text(line, "kind") == "finding" && Text(line, "finding") == "F16").ToList();
        Assert.Equal(["open", "open", "closed"], findings.Select(line => Text(line, "state")));
        Assert.Equal(
            ("ahu", "door left open", "door", "2026-03-02T09:00:00.000Z", "Go and look at the door."),
            (Text(findings[0], "airHandler"), Text(findings[0], "cause"), Text(findings[0], "component"), Text(findings[0], "onset"), Text(findings[0], "firstCheck")));
        Assert.True(findings[1].GetProperty("probability").GetDouble() > findings[0].GetProperty("probability").GetDouble());
        Assert.Equal("its signs are gone", Text(findings[2], "closedBecause"));
        Assert.InRange(findings[2].GetProperty("time").GetDateTimeOffset(), Begin.AddMinutes(205), Begin.AddMinutes(225));

        var excursions = lines.Where(line => Text(line, "kind") == "excursion").ToList();
        Assert.Equal([null, "2026-03-02T09:30:00.000Z"], excursions.Select(line => Text(line, "end")));
        Assert.Equal(("main", "2026-03-02T09:05:00.000Z", 1.6), (Text(excursions[1], "zone"), Text(excursions[1], "begin"), excursions[1].GetProperty("peakK").GetDouble()));
        Assert.Equal(25 * 0.6, excursions[1].GetProperty("degreeMinutes").GetDouble(), 0.1);
        Assert.Equal("S1", Assert.Single(excursions[1].GetProperty("jobs").EnumerateArray()).GetProperty("serial").GetString());
    }

    [Theory]
    [InlineData(150)]
    [InlineData(190)]
    [InlineData(206)]
    public async Task A_stopped_replay_goes_on_to_the_same_findings(int ticks)
    {
        var whole = await ReplayAsync("whole");
        using var stop = new CancellationTokenSource();
        var left = ticks;
        var question = Question("stopped") with { Progress = (doing, _, _) => { if (doing == "replaying" && --left == 0) stop.Cancel(); } };
        Assert.False((await ReplayRun.RunAsync(question, stop.Token)).Done);

        await ReplayRun.RunAsync(question with { Progress = (_, _, _) => { } }, CancellationToken.None);

        Assert.Equal(whole, await File.ReadAllTextAsync(question.Out));
    }

    private static void Row(List<string> rows, int second, string sensor, double value, string unit) =>
        rows.Add(string.Create(CultureInfo.InvariantCulture, $"{Begin.AddSeconds(second):yyyy-MM-ddTHH:mm:ssZ},{sensor},{value:0.000},{unit}"));

    private static Cell CellWithDoor()
    {
        var small = SmallCell.Of().Description;
        return new Cell(small with
        {
            Zones = [small.Zones[0] with { AirHandlers = ["ahu"] }],
            Sensors =
            [
                .. small.Sensors,
                new Sensor { Id = "valve", Quantity = SensorQuantity.Fraction, Place = SensorPlace.Command, Unit = "fraction", PlausibleLow = 0, PlausibleHigh = 1, AirHandler = "ahu" },
                new Sensor { Id = "door", Quantity = SensorQuantity.Contact, Place = SensorPlace.Door, Zone = "main", Unit = "open", ReportsOnChange = true, PlausibleLow = 0, PlausibleHigh = 1 },
            ],
            AirHandlers = [new AirHandler { Id = "ahu", Points = new Dictionary<string, string> { ["coolingCommand"] = "valve" } }],
        });
    }

    private static string? Text(JsonElement line, string name) => line.GetProperty(name).GetString();

    private static JsonElement[] Lines(string text) =>
        [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonSerializer.Deserialize<JsonElement>(line))];

    private string At(string name) => Path.Combine(folder, name);

    private ReplayQuestion Question(string name) =>
        new() { Cell = Cell, ConfigVersion = "1", Readings = At("readings.csv"), Events = At("events.jsonl"), Out = At(name + ".jsonl") };

    private async Task<string> ReplayAsync(string name)
    {
        var question = Question(name);
        Assert.True((await ReplayRun.RunAsync(question, CancellationToken.None)).Done);
        return await File.ReadAllTextAsync(question.Out);
    }
}
