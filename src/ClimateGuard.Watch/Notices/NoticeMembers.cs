namespace ClimateGuard.Watch;

/// <summary>How an alert enters a notice, comes back into it and leaves it.</summary>
internal static class NoticeMembers
{
    private const int MostMembers = 200;

    public static bool HasRoom(this NoticeThread thread) => thread.Members.Count < MostMembers;

    public static bool Holds(this NoticeThread thread, string alertId) => thread.Members.Any(member => member.Alert.Id == alertId);

    /// <summary>When the last alert ended, or null while one stands.</summary>
    public static DateTimeOffset? Over(this NoticeThread thread) =>
        thread.Members.Any(member => member.Over is null) ? null : thread.Members.Max(member => member.Over);

    /// <summary>The alerts that stand, or ended so recently that they may come back.</summary>
    public static IEnumerable<NoticeMember> Present(this NoticeThread thread, NoticeRules rules, DateTimeOffset now) =>
        thread.Members.Where(member => member.Over is not { } over || now - over < rules.CloseAfter);

    public static NoticeThread Joined(this NoticeThread thread, RankedAlert alert, DateTimeOffset at) => thread with
    {
        Touched = at,
        Priority = (AlertPriority)Math.Max((int)thread.Priority, (int)alert.Priority),
        Members = [.. thread.Members, new NoticeMember(alert.Raised.Alert, at, null, 1, [at], Told: false)],
    };

    public static NoticeThread Raised(this NoticeThread thread, RankedAlert alert, DateTimeOffset at, NoticeRules rules)
    {
        var old = thread.Members.First(member => member.Alert.Id == alert.Raised.Alert.Id);
        var next = old with { Alert = alert.Raised.Alert };
        if (old.Over is not null)
        {
            var recent = old.Recent.Where(time => at - time < rules.ChatteringWithin).TakeLast(rules.ChatteringFrom - 1).Append(at).ToArray();
            next = next with { Since = at, Over = null, Activations = old.Activations + 1, Recent = recent };
        }

        return thread.With(old, next) with
        {
            Touched = at,
            Priority = (AlertPriority)Math.Max((int)thread.Priority, (int)alert.Priority),
            Chattering = thread.Chattering || next.Recent.Count >= rules.ChatteringFrom,
        };
    }

    public static NoticeThread Cleared(this NoticeThread thread, string alertId, DateTimeOffset at)
    {
        var old = thread.Members.First(member => member.Alert.Id == alertId);
        return old.Over is not null ? thread : thread.With(old, old with { Over = at }) with { Touched = at };
    }

    private static NoticeThread With(this NoticeThread thread, NoticeMember old, NoticeMember next) =>
        thread with { Members = [.. thread.Members.Select(member => ReferenceEquals(member, old) ? next : member)] };
}
