using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Support;

/// <summary>Plays alerts and the passing of time to a notice policy, ticking every 5 s by default, and keeps what it said.</summary>
internal sealed class NoticeScript(NoticeRules rules, DateTimeOffset start)
{
    private readonly NoticePolicy policy = new(rules);

    public static NoticeRules Rules { get; } = new() { Cell = "cell4", Zone = TimeZoneInfo.FindSystemTimeZoneById("Europe/Vienna") };

    public TimeSpan Tick { get; init; } = TimeSpan.FromSeconds(5);

    public DateTimeOffset Now { get; private set; } = start;

    public NoticeState State { get; set; } = new();

    public List<Notice> Said { get; } = [];

    public IEnumerable<NoticeKind> Kinds => Said.Select(notice => notice.Kind);

    public static Alert Hold(string machine, string why = "Coolant is 23.4 °C and the part follows it; air is 20.1 °C.", bool cleared = false) => new(
        $"{machine}/SN1/30/hold", machine, "hold", $"{machine}: bores: 31 µm 20 min into the cut, budget 18 µm. {why}",
        $"Do not start. Have the coolant of {machine} brought back to 20.0 °C (now 23.4 °C).", cleared);

    public NoticeScript Raise(string machine, string? why = null, AlertPriority priority = AlertPriority.Medium) =>
        Tell(why is null ? Hold(machine) : Hold(machine, why), priority);

    public NoticeScript Clear(string machine) => Tell(Hold(machine, cleared: true));

    public NoticeScript Tell(Alert alert, AlertPriority priority = AlertPriority.Medium) => Step([new RankedAlert(new AlertRaised(Now, alert), priority)]);

    public NoticeScript After(TimeSpan time)
    {
        for (var end = Now + time; Now < end;)
        {
            Now = Now + Tick < end ? Now + Tick : end;
            Step([]);
        }

        return this;
    }

    public NoticeScript AfterSeconds(double seconds) => After(TimeSpan.FromSeconds(seconds));

    public NoticeScript AfterMinutes(double minutes) => After(TimeSpan.FromMinutes(minutes));

    private NoticeScript Step(IReadOnlyList<RankedAlert> alerts)
    {
        var (next, notices) = policy.Step(State, alerts, Now);
        State = next;
        Said.AddRange(notices);
        return this;
    }
}
