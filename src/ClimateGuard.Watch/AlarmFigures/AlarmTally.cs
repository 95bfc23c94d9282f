namespace ClimateGuard.Watch;

/// <summary>Activations of the last 30 days, in periods of 10 minutes; and by cause, in days.</summary>
/// <remarks>The memory it needs is bounded: 4 321 periods, 31 days of at most 1 000 causes; further causes count as one.</remarks>
internal sealed class AlarmTally
{
    private const int MostCauses = 1000;
    private static readonly TimeSpan Period = TimeSpan.FromMinutes(10);

    private readonly LinkedList<PeriodCount> periods = [];
    private readonly LinkedList<DayCount> days = [];

    public long All => periods.Sum(period => period.Count);

    public long MostInAPeriod => periods.Count == 0 ? 0 : periods.Max(period => period.Count);

    public int PeriodsAbove(int limit) => periods.Count(period => period.Count > limit);

    public long OfPriority(AlertPriority priority) => days.Sum(day => day.Priorities[(int)priority]);

    public IReadOnlyList<AlarmCause> Causes(int most) => Ranked(day => day.Causes, All, most);

    public IReadOnlyList<AlarmCause> Chattering(int most) => Ranked(day => day.Chattering, All, most);

    public int ChatteringCauses => days.SelectMany(day => day.Chattering.Keys).Distinct().Count();

    public void Count(DateTimeOffset at, (string? Machine, string Cause) cause, AlertPriority priority)
    {
        var period = at.UtcTicks / Period.Ticks;
        if (periods.Last is null || periods.Last.Value.Index < period)
        {
            periods.AddLast(new PeriodCount(period));
        }

        periods.Last!.Value.Count++;
        var day = DayOf(at);
        day.Priorities[(int)priority]++;
        Add(day.Causes, cause);
    }

    public void CountChattering(DateTimeOffset at, (string? Machine, string Cause) cause) => Add(DayOf(at).Chattering, cause);

    public void Forget(DateTimeOffset before)
    {
        while (periods.First is { } first && (first.Value.Index + 1) * Period.Ticks <= before.UtcTicks)
        {
            periods.RemoveFirst();
        }

        while (days.First is { } first && (first.Value.Index + 1) * TimeSpan.TicksPerDay <= before.UtcTicks)
        {
            days.RemoveFirst();
        }
    }

    private static void Add(Dictionary<(string? Machine, string Cause), long> counts, (string? Machine, string Cause) cause)
    {
        var known = counts.Count < MostCauses || counts.ContainsKey(cause) ? cause : (null, "other");
        counts[known] = counts.GetValueOrDefault(known) + 1;
    }

    private DayCount DayOf(DateTimeOffset at)
    {
        var index = at.UtcTicks / TimeSpan.TicksPerDay;
        if (days.Last is null || days.Last.Value.Index < index)
        {
            days.AddLast(new DayCount(index));
        }

        return days.Last!.Value;
    }

    private List<AlarmCause> Ranked(Func<DayCount, Dictionary<(string? Machine, string Cause), long>> counts, long all, int most) =>
    [
        .. days.SelectMany(counts).GroupBy(pair => pair.Key, pair => pair.Value)
            .Select(group => new AlarmCause(group.Key.Machine, group.Key.Cause, group.Sum(), all == 0 ? 0 : Math.Min(1, (double)group.Sum() / all)))
            .OrderByDescending(cause => cause.Count).ThenBy(cause => cause.Machine, StringComparer.Ordinal).ThenBy(cause => cause.Cause, StringComparer.Ordinal)
            .Take(most),
    ];

    private sealed class PeriodCount(long index)
    {
        public long Index => index;

        public long Count { get; set; }
    }

    private sealed class DayCount(long index)
    {
        public long Index => index;

        public long[] Priorities { get; } = new long[3];

        public Dictionary<(string? Machine, string Cause), long> Causes { get; } = [];

        public Dictionary<(string? Machine, string Cause), long> Chattering { get; } = [];
    }
}
