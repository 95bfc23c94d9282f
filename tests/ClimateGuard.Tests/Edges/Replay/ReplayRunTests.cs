using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Replay;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Edges.Replay;

/// <summary>A replay of the same files gives the same bytes, stopped or not, in whatever order the rows stand.</summary>
public sealed class ReplayRunTests : IDisposable
{
    private static readonly Cell Cell = SmallCell.Of();
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-replay-").FullName;
    private readonly List<string> rows = [];

    public ReplayRunTests()
    {
        for (var second = 0; second < 3 * 3600; second += 10)
        {
            var air = 20 + (0.6 * Math.Sin(second / 1500.0));
            foreach (var sensor in (string[])["air/a1", "air/a2", "air/a3"])
            {
                rows.Add(string.Create(CultureInfo.InvariantCulture, $"{Begin.AddSeconds(second):yyyy-MM-ddTHH:mm:ssZ},{sensor},{air:0.000},C"));
            }
        }

        File.WriteAllLines(At("events.jsonl"),
        [
            """{"time":"2026-03-02T06:05:00Z","type":"job","machine":"M1","serial":"S1","part":"D-1","operation":"40","plannedMinutes":30,"startC":28.0,"startU":0.1}""",
            """{"time":"2026-03-02T06:30:00Z","type":"permitRequest","machine":"M1","serial":"S1","part":"D-1","operation":"40","requestId":"r2"}""",
            """{"time":"2026-03-02T06:06:30Z","type":"permitRequest","machine":"M1","serial":"S1","part":"D-1","operation":"40","requestId":"r1"}""",
            """{"time":"2026-03-02T08:00:00Z","type":"measurement","machine":"M1","kind":"contact","valueC":20.1,"uC":0.05}""",
        ]);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_same_files_give_the_same_bytes_in_whatever_order_the_rows_stand()
    {
        var first = await ReplayAsync(rows, "first");
        string[] shuffled = [.. rows.OrderBy(row => row.GetHashCode(StringComparison.Ordinal))];

        Assert.Equal(first, await ReplayAsync(rows, "again"));
        Assert.Equal(first, await ReplayAsync(shuffled, "shuffled"));
        Assert.Equal(first, await ReplayAsync(shuffled, "in-pieces", question => question with { MostInMemory = 1000 }));
    }

    [Fact]
    public async Task A_cold_or_warm_blank_is_held_and_each_request_is_answered_at_its_own_time()
    {
        var lines = Lines(await ReplayAsync(rows, "out"));

        Assert.Equal("hold", lines.First(line => Text(line, "kind") == "outlook" && Text(line, "time") == "2026-03-02T06:05:00.000Z").GetProperty("level").GetString());
        Assert.Equal(
            [("r1", "HOLD", "2026-03-02T06:06:30.000Z"), ("r2", "HOLD", "2026-03-02T06:30:00.000Z")],
            lines.Where(line => Text(line, "kind") == "answer").Select(line => (Text(line, "requestId"), Text(line, "answer"), Text(line, "time"))));
        Assert.Contains(lines, line => Text(line, "kind") == "alert");
        Assert.NotEqual("hold", Text(lines.Last(line => Text(line, "kind") == "outlook"), "level"));
        Assert.Equal(lines.Select(line => Text(line, "time")).Order(StringComparer.Ordinal), lines.Select(line => Text(line, "time")));
    }

    [Theory]
    [InlineData(60)]
    [InlineData(20)]
    public async Task An_outlook_comes_at_least_every_so_many_seconds(int seconds)
    {
        var every = TimeSpan.FromSeconds(seconds);
        var times = Lines(await ReplayAsync(rows, "out", question => question with { Every = every }))
            .Where(line => Text(line, "kind") == "outlook").Select(line => line.GetProperty("time").GetDateTimeOffset()).ToArray();

        Assert.InRange(times[0], Begin, Begin + every);
        Assert.All(times.Zip(times.Skip(1)), pair => Assert.InRange(pair.Second - pair.First, TimeSpan.Zero, every));
        Assert.InRange(times[^1], Begin.AddHours(3).AddSeconds(-10), DateTimeOffset.MaxValue);
    }

    // The held part has its prospect worked out at 06:05, 06:10, …; a stop between them must not move the next one.
    [Theory]
    [InlineData(1)]
    [InlineData(6)]
    [InlineData(70)]
    [InlineData(150)]
    public async Task A_stopped_replay_goes_on_to_the_same_bytes(int ticks)
    {
        var whole = await ReplayAsync(rows, "whole", question => question with { Every = TimeSpan.FromMinutes(1) });
        using var stop = new CancellationTokenSource();
        var left = ticks;
        var question = Question(rows, "stopped") with
        {
            Every = TimeSpan.FromMinutes(1),
            Progress = (doing, _, _) =>
            {
                if (doing == "replaying" && --left == 0)
                {
                    stop.Cancel();
                }
            },
        };
        var stopped = await ReplayRun.RunAsync(question, stop.Token);
        Assert.False(stopped.Done);
        Assert.False(File.Exists(question.Out));

        var ended = await ReplayRun.RunAsync(question with { Progress = (_, _, _) => { } }, CancellationToken.None);

        Assert.Equal(Begin.AddMinutes(ticks), ended.GoesOnAfter);
        Assert.Equal(whole, await File.ReadAllTextAsync(question.Out));
        Assert.Equal(["stopped.csv", "stopped.jsonl"], Directory.GetFiles(folder, "stopped*").Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_stopped_replay_of_other_files_begins_anew()
    {
        using var stop = new CancellationTokenSource();
        var question = Question(rows, "out") with { Progress = (doing, _, _) => { if (doing == "replaying") { stop.Cancel(); } } };
        await ReplayRun.RunAsync(question, stop.Token);
        rows.RemoveAt(rows.Count - 1);

        var result = await ReplayRun.RunAsync(Question(rows, "out"), CancellationToken.None);

        Assert.Null(result.GoesOnAfter);
        Assert.Equal(await ReplayAsync(rows, "other"), await File.ReadAllTextAsync(question.Out));
    }

    [Fact]
    public async Task A_stuck_sensor_is_told_once_with_its_cause_and_its_readings_are_set_aside()
    {
        var stuckAt = Begin.AddHours(1);
        string[] stuck = [.. rows.Select(row => row.Contains("air/a2", StringComparison.Ordinal)
            && DateTimeOffset.Parse(row[..20], CultureInfo.InvariantCulture) >= stuckAt ? row[..20] + ",air/a2,20.123,C" : row)];

        var alerts = Lines(await ReplayAsync(stuck, "out")).Where(line => Text(line, "kind") == "alert" && Text(line, "id")!.StartsWith("sensor/", StringComparison.Ordinal));

        var alert = Assert.Single(alerts);
        Assert.Equal(("sensor/air/a2/sensor stuck", "sensor stuck", false), (Text(alert, "id"), Text(alert, "cause"), alert.GetProperty("cleared").GetBoolean()));
        Assert.Contains("says the same digits since 07:00 UTC", Text(alert, "text"), StringComparison.Ordinal);
        Assert.NotEmpty(Text(alert, "action")!);
        Assert.InRange(alert.GetProperty("time").GetDateTimeOffset(), stuckAt.AddHours(1), stuckAt.AddMinutes(75));
    }

    [Fact]
    public async Task A_bad_event_is_named_with_its_line_and_nothing_is_written()
    {
        await File.AppendAllTextAsync(At("events.jsonl"), """{"time":"2026-03-02T09:00:00Z","type":"coffee","machine":"M1"}""");

        var refused = await Assert.ThrowsAsync<UnreadableFileException>(() => ReplayAsync(rows, "out"));

        Assert.StartsWith($"{At("events.jsonl")}:5: ", refused.Message, StringComparison.Ordinal);
        Assert.Equal(["out.csv"], Directory.GetFiles(folder, "out*").Select(Path.GetFileName));
    }

    [Fact]
    public async Task A_stamp_from_another_decade_is_named_instead_of_replaying_the_years_between()
    {
        rows.Add("2001-01-01T00:00:00Z,air/a1,20,C");

        Assert.Contains(
            "from 2001-01-01T00:00:00.000Z", (await Assert.ThrowsAsync<UnreadableFileException>(() => ReplayAsync(rows, "out"))).Message, StringComparison.Ordinal);
    }

    private static string? Text(JsonElement line, string name) => line.GetProperty(name).GetString();

    private static JsonElement[] Lines(string text) =>
        [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonSerializer.Deserialize<JsonElement>(line))];

    private string At(string name) => Path.Combine(folder, name);

    private ReplayQuestion Question(IEnumerable<string> readings, string name)
    {
        File.WriteAllLines(At(name + ".csv"), readings.Prepend("time,sensor,value,unit"));
        return new() { Cell = Cell, ConfigVersion = "1", Readings = At(name + ".csv"), Events = At("events.jsonl"), Out = At(name + ".jsonl") };
    }

    private async Task<string> ReplayAsync(IEnumerable<string> readings, string name, Func<ReplayQuestion, ReplayQuestion>? with = null)
    {
        var question = Question(readings, name);
        question = with is null ? question : with(question);
        Assert.True((await ReplayRun.RunAsync(question, CancellationToken.None)).Done);
        return await File.ReadAllTextAsync(question.Out);
    }
}
