using System.Globalization;

namespace ClimateGuard.Watch;

/// <summary>What a message says.</summary>
internal static class NoticeWords
{
    public const string ChatteringMark = "chattering|";
    private const int MostLines = 10;
    private const int MostNames = 6;

    /// <summary>What a notice says without its numbers: which alerts stand, and their texts.</summary>
    public static string Shape(NoticeThread thread, NoticeRules rules, DateTimeOffset now) =>
        (thread.Chattering ? ChatteringMark : "") + string.Join('\n', thread.Present(rules, now)
            .Select(member => $"{member.Alert.Id}|{TextShape.Of(member.Alert.Text, member.Alert.Machine)}|{TextShape.Of(member.Alert.Action, member.Alert.Machine)}"));

    /// <summary>A message of one notice; a kind of null says that it is no longer followed.</summary>
    public static Notice Of(NoticeThread thread, NoticeKind? kind, NoticeRules rules, DateTimeOffset now)
    {
        var closing = kind is null or NoticeKind.Closed;
        var members = closing ? [.. thread.Members] : thread.Members.Where(member => member.Over is null).ToArray();
        members = members.Length == 0 ? [.. thread.Members] : members;
        return new Notice
        {
            Key = string.Create(CultureInfo.InvariantCulture, $"{thread.Id}.{thread.Messages + 1}"),
            GoesOnFrom = thread.Root,
            Cell = rules.Cell,
            Kind = kind ?? NoticeKind.Closed,
            Time = now,
            Since = thread.Begun,
            Priority = thread.Priority,
            Cause = members[0].Alert.Cause,
            Machines = Machines(members),
            AffectedJobs = members.Length,
            Subject = Prefix(kind, thread, now) + Headline(members, rules.Cell),
            Lines = [.. Said(members, closing), .. Remarks(thread, kind, rules, now)],
            Action = kind switch
            {
                null => "Look whether it still stands; nobody reported its end.",
                NoticeKind.Closed => "Nothing to do.",
                _ => members[0].Alert.Action,
            },
        };
    }

    /// <summary>One line of a digest about what came and went.</summary>
    public static string HeldLine(NoticeThread thread, NoticeRules rules)
    {
        var end = thread.Over() is { } over ? $"to {Clock(over, rules)}, over" : $"and nothing heard since {Clock(thread.Touched, rules)}, no longer followed";
        return $"From {Clock(thread.Begun, rules)} {end}: {Headline(thread.Members, null)}. {thread.Members[0].Alert.Text}";
    }

    /// <summary>What was held back, in one message.</summary>
    public static Notice Digest(string key, IReadOnlyList<NoticeThread> standing, NoticeState state, NoticeRules rules, DateTimeOffset now)
    {
        var members = standing.SelectMany(thread => thread.Members.Where(member => member.Over is null)).ToArray();
        string[] more = state.HeldMore > 0 ? [$"And {state.HeldMore} more that are over; all of them are in the ledger."] : [];
        return new Notice
        {
            Key = key,
            Cell = rules.Cell,
            Kind = NoticeKind.Digest,
            Time = now,
            Since = standing.Count > 0 ? standing.Min(thread => thread.Begun) : now,
            Priority = standing.Count > 0 ? standing.Max(thread => thread.Priority) : AlertPriority.Low,
            Cause = "digest",
            Machines = Machines(members),
            AffectedJobs = members.Length,
            Subject = $"{rules.Cell}: {standing.Count} still standing, {state.Held.Count + state.HeldMore} over, held back until now",
            Lines =
            [
                .. standing.Select(thread => $"Since {Clock(thread.Begun, rules)}, still standing: {Headline(thread.Members, null)}. {thread.Members[0].Alert.Text}"),
                .. state.Held,
                .. more,
            ],
            Action = standing.Count > 0 ? standing[0].Members[0].Alert.Action : "Nothing to do.",
        };
    }

    private static string Prefix(NoticeKind? kind, NoticeThread thread, DateTimeOffset now) => kind switch
    {
        null => "No longer followed: ",
        NoticeKind.Closed => "Over: ",
        NoticeKind.Edited => "Changed: ",
        NoticeKind.FollowedUp => $"Still so after {Words.Minutes(now - thread.Begun)}: ",
        _ => "",
    };

    private static string Headline(IReadOnlyList<NoticeMember> members, string? cell)
    {
        var names = Machines(members);
        var head = cell is null ? members[0].Alert.Cause : $"{cell}: {members[0].Alert.Cause}";
        if (members.Count == 1)
        {
            return names.Length == 1 ? $"{head} on {names[0]}" : head;
        }

        var listed = string.Join(", ", names.Take(MostNames)) + (names.Length > MostNames ? $" and {names.Length - MostNames} more" : "");
        return names.Length == 0 ? $"{head}, {members.Count} times" : $"{head}, {members.Count} affected jobs, the same reason: {listed}";
    }

    private static string[] Machines(IEnumerable<NoticeMember> members) =>
        [.. members.Select(member => member.Alert.Machine).OfType<string>().Distinct(StringComparer.Ordinal)];

    private static IEnumerable<string> Said(IReadOnlyList<NoticeMember> members, bool closing)
    {
        foreach (var member in members.Take(MostLines))
        {
            yield return closing ? $"It was: {member.Alert.Text}" : member.Alert.Text;
        }

        if (members.Count > MostLines)
        {
            yield return $"And {members.Count - MostLines} more.";
        }
    }

    private static IEnumerable<string> Remarks(NoticeThread thread, NoticeKind? kind, NoticeRules rules, DateTimeOffset now)
    {
        var times = thread.Members.Max(member => member.Activations);
        if (thread.Chattering)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"It comes and goes: {times} times so far. Further ones are counted, not told.");
        }

        yield return kind switch
        {
            null => $"It began at {Clock(thread.Begun, rules)}, and nothing was heard of it for {Words.Minutes(now - thread.Touched)}. No more messages come about it.",
            NoticeKind.Closed => $"It stood from {Clock(thread.Begun, rules)} to {Clock(thread.Over() ?? now, rules)}.",
            _ => $"Since {Clock(thread.Begun, rules)}.",
        };
    }

    private static string Clock(DateTimeOffset time, NoticeRules rules) =>
        TimeZoneInfo.ConvertTime(time, rules.Zone).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
