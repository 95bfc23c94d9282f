using System.Globalization;

namespace ClimateGuard.Watch;

/// <summary>One step of the policy, at work on a copy of the state.</summary>
internal sealed class NoticeRound
{
    private const int MostThreads = 500;
    private const int MostHeld = 100;

    private readonly NoticeRules rules;
    private readonly DateTimeOffset now;
    private readonly List<NoticeThread> threads;
    private readonly List<Notice> notices = [];
    private readonly bool quiet;
    private NoticeState state;
    private DateTimeOffset clock;

    public NoticeRound(NoticeRules rules, NoticeState state, DateTimeOffset now)
    {
        this.rules = rules;
        this.now = now;
        clock = state.At;
        threads = [.. state.Threads];
        quiet = rules.QuietHours?.At(now, rules.Zone) is not null;
        this.state = state with { At = now, Sent = [.. state.Sent.Where(time => now - time < TimeSpan.FromHours(1))] };
    }

    private bool HasRoomInTheHour => state.Sent.Count < rules.MostPerHour;

    /// <summary>Takes in an alert that was raised, raised again or cleared.</summary>
    public void Take(RankedAlert alert)
    {
        var raised = alert.Raised;
        clock = raised.Time > now ? now : raised.Time > clock ? raised.Time : clock;
        var index = threads.FindIndex(thread => thread.Holds(raised.Alert.Id));
        if (raised.Alert.Cleared)
        {
            if (index >= 0)
            {
                threads[index] = threads[index].Cleared(raised.Alert.Id, clock);
            }

            return;
        }

        if (index >= 0)
        {
            threads[index] = threads[index].Raised(alert, clock, rules);
            return;
        }

        var group = GroupOf(raised.Alert);
        index = threads.FindIndex(thread =>
            thread.Group == group && thread.Over() is null && clock - thread.Begun <= rules.GroupWithin && thread.HasRoom());
        if (index >= 0)
        {
            threads[index] = threads[index].Joined(alert, clock);
        }
        else
        {
            Begin(alert, group);
        }
    }

    /// <summary>Makes the messages that are due.</summary>
    public void Tell()
    {
        if (!quiet && HasRoomInTheHour)
        {
            PayWhatIsOwed();
        }

        for (var i = 0; i < threads.Count; i++)
        {
            var next = threads[i].Root is null ? Waiting(threads[i]) : Standing(threads[i]);
            if (next is null)
            {
                threads.RemoveAt(i--);
            }
            else
            {
                threads[i] = next;
            }
        }
    }

    public (NoticeState State, IReadOnlyList<Notice> Notices) Result() => (state with { Threads = threads }, notices);

    private static string GroupOf(Alert alert) =>
        alert.Machine is null ? alert.Cause : $"{alert.Cause}|{TextShape.OfReason(alert.Text, alert.Machine)}";

    private void Begin(RankedAlert alert, string group)
    {
        if (threads.Count >= MostThreads)
        {
            state = state with { Uncounted = state.Uncounted + 1 };
            return;
        }

        state = state with { Begun = state.Begun + 1 };
        threads.Add(new NoticeThread { Id = NextId("notice"), Group = group, Begun = clock, Touched = clock, Members = [] }.Joined(alert, clock));
    }

    private string NextId(string what) =>
        string.Create(CultureInfo.InvariantCulture, $"{rules.Cell}.{what}.{clock.UtcDateTime:yyyyMMdd'T'HHmmssfff'Z'}.{state.Begun}");

    /// <summary>A notice of which nothing was told yet.</summary>
    private NoticeThread? Waiting(NoticeThread thread)
    {
        if (thread.Over() is { } over && now - over >= (thread.Chattering ? rules.CalmAfter : rules.CloseAfter))
        {
            if (thread.Withheld)
            {
                Hold(thread);
            }
            else
            {
                state = state with { Fleeting = state.Fleeting + 1 };
            }

            return null;
        }

        var stands = thread.Members.Any(member => member.Over is null && now - member.Since >= rules.GatherFor);
        return !stands && !thread.Chattering ? thread : Emit(thread, NoticeKind.Opened);
    }

    /// <summary>A notice that people know of.</summary>
    private NoticeThread? Standing(NoticeThread thread)
    {
        if (thread.Over() is { } over)
        {
            var ended = now - over >= (thread.Chattering ? rules.CalmAfter : rules.CloseAfter);
            return ended ? Close(thread, dropped: false) : BeginsToChatter(thread) ? Emit(thread, NoticeKind.Edited) : thread;
        }

        if (now - thread.Touched >= rules.DropAfter)
        {
            return Close(thread, dropped: true);
        }

        if (Passed(thread) > thread.FollowedUp)
        {
            return Emit(thread, NoticeKind.FollowedUp);
        }

        var due = BeginsToChatter(thread) || (now - thread.ToldAt >= rules.EditAtMostEvery && NoticeWords.Shape(thread, rules, now) != thread.ToldShape);
        return due ? Emit(thread, NoticeKind.Edited) : thread;
    }

    private static bool BeginsToChatter(NoticeThread thread) =>
        thread.Chattering && !thread.ToldShape.StartsWith(NoticeWords.ChatteringMark, StringComparison.Ordinal);

    private int Passed(NoticeThread thread) => rules.FollowUps.Count(time => now - thread.Begun >= time);

    private NoticeThread? Close(NoticeThread thread, bool dropped)
    {
        if (!MayTell(thread.Priority))
        {
            Hold(thread);
            return null;
        }

        var notice = NoticeWords.Of(thread, dropped ? null : NoticeKind.Closed, rules, now);
        Send(notice with { Closes = Told(thread.Members) });
        return null;
    }

    private NoticeThread Emit(NoticeThread thread, NoticeKind kind)
    {
        if (!MayTell(thread.Priority))
        {
            return thread with { Withheld = true };
        }

        var (next, opens, closes) = Known(thread);
        var notice = NoticeWords.Of(next, kind, rules, now) with { Opens = opens, Closes = closes };
        Send(notice);
        return next with { Root = next.Root ?? notice.Key, Messages = next.Messages + 1, FollowedUp = Passed(next) };
    }

    /// <summary>The notice as people will know it after a message: which alerts are new to them, which are over.</summary>
    private (NoticeThread Next, string[] Opens, string[] Closes) Known(NoticeThread thread)
    {
        // All gone at once is the business of closing; a chattering notice is told although nothing may stand at this moment.
        var present = thread.Present(rules, now).ToArray();
        present = present.Length == 0 ? [.. thread.Members] : present;
        string[] opens = [.. present.Where(member => !member.Told).Select(member => member.Alert.Id)];
        var closes = Told(thread.Members.Except(present));
        var next = thread with { Members = [.. present.Select(member => member with { Told = true })], ToldAt = now, Withheld = false };
        return (next with { ToldShape = NoticeWords.Shape(next, rules, now) }, opens, closes);
    }

    private static string[] Told(IEnumerable<NoticeMember> members) => [.. members.Where(member => member.Told).Select(member => member.Alert.Id)];

    private bool MayTell(AlertPriority priority) =>
        !(quiet && priority < rules.QuietLetsThrough)
        && state.Sent.Count < (priority == AlertPriority.High ? 2 * rules.MostPerHour : rules.MostPerHour);

    private void Hold(NoticeThread thread)
    {
        var room = state.Held.Count < MostHeld;
        state = state with
        {
            Held = room ? [.. state.Held, NoticeWords.HeldLine(thread, rules)] : state.Held,
            HeldMore = state.HeldMore + (room ? 0 : 1),
            HeldCloses = [.. state.HeldCloses, .. Told(thread.Members)],
        };
    }

    private void PayWhatIsOwed()
    {
        // What ended in the meantime goes first into the lines of the digest, not into a message of its own.
        for (var i = threads.Count - 1; i >= 0; i--)
        {
            if (threads[i] is { Withheld: true } ended && ended.Over() is { } over && now - over >= rules.CloseAfter)
            {
                Hold(ended);
                threads.RemoveAt(i);
            }
        }

        var owed = Enumerable.Range(0, threads.Count).Where(i => threads[i].Withheld).ToArray();
        if (state.Held.Count == 0 && owed.Length <= 1)
        {
            return;
        }

        state = state with { Begun = state.Begun + 1 };
        clock = now;
        var key = NextId("digest");
        var known = owed.Select(i => (Index: i, Known: Known(threads[i]))).ToArray();
        var digest = NoticeWords.Digest(key, [.. known.Select(one => one.Known.Next)], state, rules, now);
        Send(digest with
        {
            Opens = [.. known.SelectMany(one => one.Known.Opens)],
            Closes = [.. state.HeldCloses.Concat(known.SelectMany(one => one.Known.Closes)).Distinct(StringComparer.Ordinal)],
        });
        foreach (var (index, (next, _, _)) in known)
        {
            threads[index] = next with { Root = next.Root ?? key, FollowedUp = Passed(next) };
        }

        state = state with { Held = [], HeldMore = 0, HeldCloses = [] };
    }

    private void Send(Notice notice)
    {
        // What ended unnoticed while messages were held back and is now told as standing again, is told as both.
        string[] again = [.. state.HeldCloses.Intersect(notice.Opens, StringComparer.Ordinal)];
        notices.Add(again.Length == 0 ? notice : notice with { Closes = [.. notice.Closes.Union(again, StringComparer.Ordinal)] });
        state = state with { Sent = [.. state.Sent, now], HeldCloses = [.. state.HeldCloses.Except(again, StringComparer.Ordinal)] };
    }
}
