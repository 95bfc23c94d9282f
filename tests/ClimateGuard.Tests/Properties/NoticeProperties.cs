using ClimateGuard.Edges.Notices;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

public sealed class NoticeProperties
{
    private static readonly DateTimeOffset Start = new(2026, 10, 24, 18, 0, 0, TimeSpan.Zero);

    private static readonly NoticeRules Rules = NoticeScript.Rules with
    {
        MostPerHour = 4, QuietHours = new LocalPeriod(new TimeOnly(22, 0), new TimeOnly(2, 30), []),
    };

    // Machine 0 to 4, reason a to c, raised or cleared, priority, and the pause before it in seconds (0 to 1 h, small ones often).
    private static readonly Gen<(int Machine, int Reason, bool Cleared, int Priority, int Pause)[]> Story = Gen.Select(
        Gen.Int[0, 4], Gen.Int[0, 2], Gen.Bool, Gen.Int[0, 2], Gen.OneOf(Gen.Int[0, 20], Gen.Int[0, 600], Gen.Int[0, 3600])).Array[1, 80];

    [Fact]
    public void No_cause_is_opened_twice_without_a_close_between_and_none_is_closed_that_is_not_open() => Story.Sample(
        story =>
        {
            var open = new HashSet<string>(StringComparer.Ordinal);
            return Told(story, restarts: false).All(notice => notice.Closes.All(open.Remove) && notice.Opens.All(open.Add));
        },
        iter: 200);

    [Fact]
    public void Keys_never_repeat_and_a_restart_at_any_point_changes_nothing() => Story.Sample(
        story =>
        {
            var plain = Told(story, restarts: false);
            var restarted = Told(story, restarts: true);
            return plain.Select(notice => notice.Key).Distinct().Count() == plain.Count
                && plain.Select(NoticeJson.Of).SequenceEqual(restarted.Select(NoticeJson.Of));
        },
        iter: 80);

    [Fact]
    public void No_hour_holds_more_messages_than_allowed() => Story.Sample(
        story =>
        {
            var times = Told(story, restarts: false).Select(notice => notice.Time).ToArray();
            return times.All(time => times.Count(other => other > time.AddHours(-1) && other <= time) <= 2 * Rules.MostPerHour);
        },
        iter: 80);

    [Fact]
    public void When_all_is_over_and_the_night_too_nothing_is_left_open() => Story.Sample(
        story =>
        {
            var script = Played(story, restarts: false);
            foreach (var machine in Enumerable.Range(0, 5))
            {
                script.Clear($"m{machine}");
            }

            script.After(TimeSpan.FromHours(36));
            var closed = script.Said.SelectMany(notice => notice.Closes).Count();
            return script.State.Threads.Count == 0 && script.Said.SelectMany(notice => notice.Opens).Count() == closed;
        },
        iter: 40);

    private static List<Notice> Told((int Machine, int Reason, bool Cleared, int Priority, int Pause)[] story, bool restarts) => Played(story, restarts).Said;

    private static NoticeScript Played((int Machine, int Reason, bool Cleared, int Priority, int Pause)[] story, bool restarts)
    {
        var script = new NoticeScript(Rules, Start) { Tick = TimeSpan.FromSeconds(30) };
        foreach (var (machine, reason, cleared, priority, pause) in story)
        {
            script.AfterSeconds(pause);
            script.Tell(NoticeScript.Hold($"m{machine}", $"Reason {"abc"[reason]}.", cleared), (AlertPriority)priority);
            if (restarts)
            {
                script.State = NoticeJson.StateFrom(NoticeJson.Of(script.State));
            }
        }

        return script;
    }
}
