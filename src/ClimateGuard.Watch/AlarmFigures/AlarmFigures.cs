using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Counts our own alarms as alarm-management practice asks (ANSI/ISA-18.2, IEC 62682), one alert at a time.</summary>
/// <remarks>
/// An activation is an alert that is raised while it does not stand; raised again while it stands is news, not an alarm. All figures look
/// back 30 days at most. No clock: time comes with the alerts and the questions, and never runs backwards. Memory is bounded. Not safe
/// across threads.
/// </remarks>
public sealed class AlarmFigures
{
    private const int MostStanding = 10_000;
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    private readonly DateTimeOffset begun;
    private readonly Dictionary<string, DateTimeOffset> standing = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Recent> lastMinute = new(StringComparer.Ordinal);
    private readonly FloodWatch flood = new();
    private readonly AlarmTally tally = new();
    private readonly TimeZoneInfo zone;
    private ShiftTally shifts;
    private readonly long[] totals = new long[3];
    private DateTimeOffset at;
    private DateTimeOffset swept;

    /// <summary>Begins to count.</summary>
    /// <param name="shifts">The shifts of the cell; none means that nothing is counted per shift.</param>
    /// <param name="zone">Their time zone.</param>
    /// <param name="begun">Since when it is counted.</param>
    public AlarmFigures(IReadOnlyList<Shift> shifts, TimeZoneInfo zone, DateTimeOffset begun)
    {
        ArgumentNullException.ThrowIfNull(shifts);
        ArgumentNullException.ThrowIfNull(zone);
        this.shifts = new ShiftTally(shifts, zone);
        this.zone = zone;
        this.begun = begun;
        at = begun;
        swept = begun;
        this.shifts.Advance(begun);
    }

    /// <summary>Activations since it was begun, by priority: low, medium, high. Never falls.</summary>
    public IReadOnlyList<long> Totals => totals;

    /// <summary>Counts by other shifts from now on; what was counted by the old ones is forgotten.</summary>
    /// <param name="next">The shifts of the cell, in the same time zone.</param>
    public void UseShifts(IReadOnlyList<Shift> next)
    {
        shifts = new ShiftTally(next, zone);
        shifts.Advance(at);
    }

    /// <summary>Takes in an alert.</summary>
    /// <param name="alert">Raised or cleared.</param>
    public void Take(RankedAlert alert)
    {
        ArgumentNullException.ThrowIfNull(alert);
        Advance(alert.Raised.Time);
        var id = alert.Raised.Alert.Id;
        if (alert.Raised.Alert.Cleared)
        {
            standing.Remove(id);
            return;
        }

        if (standing.ContainsKey(id))
        {
            return;
        }

        if (standing.Count < MostStanding)
        {
            standing.Add(id, at);
        }

        (string?, string) cause = (alert.Raised.Alert.Machine, alert.Raised.Alert.Cause);
        totals[(int)alert.Priority]++;
        flood.Count(at);
        shifts.Count(at);
        tally.Count(at, cause, alert.Priority);
        if (Chatters(id))
        {
            tally.CountChattering(at, cause);
        }
    }

    /// <summary>The figures at a moment.</summary>
    /// <param name="now">The moment; an earlier one than the newest alert's counts as that.</param>
    public AlarmFiguresReport At(DateTimeOffset now)
    {
        Advance(now);
        var since = at - AlarmLimits.LeastEvidence > begun ? at - AlarmLimits.LeastEvidence : begun;
        var length = at - since;
        var all = tally.All;
        var inFlood = length > TimeSpan.Zero ? Math.Clamp(flood.Between(since, at) / length, 0, 1) : 0;
        string[] stale =
            [.. standing.Where(pair => at - pair.Value > AlarmLimits.StaleAfter).OrderBy(pair => pair.Value).Select(pair => pair.Key)];
        var report = new AlarmFiguresReport
        {
            Time = at,
            Since = since,
            EnoughEvidence = length >= AlarmLimits.LeastEvidence,
            Alarms = all,
            Standing = standing.Count,
            InTenMinutes = flood.InTenMinutes,
            InAnHour = flood.InAnHour,
            InThisShift = shifts.Present,
            InFlood = flood.InFlood,
            Floods = flood.Floods,
            FloodShare = inFlood,
            Stale = stale,
            Chattering = tally.Chattering(10),
            TopCauses = tally.Causes(10),
            Priorities = new PriorityShares(Share(AlertPriority.Low, all), Share(AlertPriority.Medium, all), Share(AlertPriority.High, all)),
            Figures = [],
        };
        return report with { Figures = AlarmComparison.Of(report, tally, shifts) };
    }

    private double Share(AlertPriority priority, long all) => all == 0 ? 0 : (double)tally.OfPriority(priority) / Math.Max(all, tally.OfPriority(priority));

    private void Advance(DateTimeOffset now)
    {
        at = now > at ? now : at;
        flood.Advance(at);
        shifts.Advance(at);
        if (at - swept >= Minute)
        {
            swept = at;
            tally.Forget(at - AlarmLimits.LeastEvidence);
            shifts.Forget(at - AlarmLimits.LeastEvidence);
            flood.Forget(at - AlarmLimits.LeastEvidence);
            foreach (var id in standing.Where(pair => at - pair.Value > AlarmLimits.LeastEvidence).Select(pair => pair.Key).ToArray())
            {
                // Its end was never reported, for instance because the worker was down; it must not count as stale for ever.
                standing.Remove(id);
            }

            foreach (var id in lastMinute.Where(pair => at - pair.Value.Times[^1] >= Minute).Select(pair => pair.Key).ToArray())
            {
                lastMinute.Remove(id);
            }
        }
    }

    /// <summary>Whether this activation is the one that makes the alarm chatter; an episode lasts until a whole minute passes without one.</summary>
    private bool Chatters(string id)
    {
        if (!lastMinute.TryGetValue(id, out var recent))
        {
            lastMinute.Add(id, recent = new Recent());
        }

        recent.Times.RemoveAll(time => at - time >= Minute);
        recent.Chatters &= recent.Times.Count > 0;
        recent.Times.Add(at);
        if (recent.Chatters || recent.Times.Count < AlarmLimits.ChatteringFrom)
        {
            return false;
        }

        return recent.Chatters = true;
    }

    private sealed class Recent
    {
        public List<DateTimeOffset> Times { get; } = [];

        public bool Chatters { get; set; }
    }
}
