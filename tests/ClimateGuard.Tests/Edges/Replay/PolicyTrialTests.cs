using System.Globalization;
using ClimateGuard.Edges.Replay;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Replay;

/// <summary>History under another policy.</summary>
public sealed class PolicyTrialTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly Cell cell = SmallCell.Of();
    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-policy-test-").FullName;

    public PolicyTrialTests()
    {
        var rows = new List<string> { "time,sensor,value,unit" };
        for (var second = 0; second < 3600; second += 10)
        {
            rows.AddRange(((string[])["air/a1", "air/a2", "air/a3"]).Select(sensor => string.Create(
                CultureInfo.InvariantCulture, $"{Begin.AddSeconds(second):yyyy-MM-ddTHH:mm:ssZ},{sensor},20.0,C")));
        }

        File.WriteAllLines(At("readings.csv"), rows);

        // 22.2 °C known to 0.08 K: about 20 µm of a budget of 18 µm, so a hold that another threshold does not change is one of certainty; 21.9 is not certain.
        File.WriteAllLines(At("events.jsonl"),
        [
            """{"time":"2026-03-02T06:05:00Z","type":"job","machine":"M1","serial":"S1","part":"D-1","operation":"40","plannedMinutes":5,"startC":21.9,"startU":0.05}""",
            """{"time":"2026-03-02T06:06:00Z","type":"permitRequest","machine":"M1","serial":"S1","part":"D-1","operation":"40","requestId":"r1"}""",
            """{"time":"2026-03-02T06:07:00Z","type":"measurement","machine":"M1","kind":"contact","valueC":21.9,"uC":0.05}""",
            """{"time":"2026-03-02T06:30:00Z","type":"job","machine":"M1","serial":"S2","part":"D-1","operation":"40","plannedMinutes":5,"startC":20.0,"startU":0.05}""",
            """{"time":"2026-03-02T06:31:00Z","type":"permitRequest","machine":"M1","serial":"S2","part":"D-1","operation":"40","requestId":"r2"}""",
        ]);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_same_policy_changes_nothing()
    {
        var comparison = await TryAsync(cell.Description.Policies);

        Assert.Empty(comparison.Differences);
        Assert.Equal(2, comparison.Answers);
    }

    [Fact]
    public async Task A_higher_threshold_names_the_answer_that_would_differ_and_whether_a_measured_hold_would_be_lost()
    {
        var policies = cell.Description.Policies;
        var comparison = await TryAsync(policies with { Probability = policies.Probability with { Hold = 0.99 } });

        var answer = Assert.Single(comparison.Differences, difference => difference.What == "answer");
        Assert.Equal((Begin.AddMinutes(6), "M1", "S1", "HOLD"), (answer.Time, answer.Machine, answer.Serial, answer.From));
        Assert.NotEqual("HOLD", answer.To);
        Assert.Contains(comparison.Differences, difference => difference is { What: "level", From: "hold" });
        var outcome = Assert.Single(comparison.Outcomes);
        Assert.Equal((HoldVerdict.Confirmed, true, false), (outcome.Score.Verdict, outcome.HeldBefore, outcome.HeldAfter));
    }

    private string At(string name) => Path.Combine(folder, name);

    private async Task<PolicyComparison> TryAsync(Policies policies) => (await PolicyTrial.RunAsync(
        new ReplayQuestion { Cell = cell, ConfigVersion = "1", Readings = At("readings.csv"), Events = At("events.jsonl"), Out = "" },
        new Cell(cell.Description with { Policies = policies }), "2", [], CancellationToken.None)).Comparison;
}
