using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Activations in each shift of the last 30 days.</summary>
internal sealed class ShiftTally(IReadOnlyList<Shift> shifts, TimeZoneInfo zone)
{
    private readonly List<LocalPeriod> periods = [.. shifts.Select(shift => new LocalPeriod(shift.From, shift.To, shift.Days))];
    private readonly LinkedList<(DateTimeOffset Begin, long Count)> counts = [];
    private DateTimeOffset? presentBegin;
    private DateTimeOffset? presentEnd;

    /// <summary>Activations in the shift that was on at the last moment, or null when there was none.</summary>
    public long? Present => presentBegin is { } begin ? counts.Last is { } last && last.Value.Begin == begin ? last.Value.Count : 0 : null;

    /// <summary>The most in one shift.</summary>
    public long Most => counts.Count == 0 ? 0 : counts.Max(shift => shift.Count);

    /// <summary>The mean over the shifts that were seen, or null before the first.</summary>
    public double? Mean => counts.Count == 0 ? null : counts.Average(shift => (double)shift.Count);

    public void Advance(DateTimeOffset now)
    {
        if (presentEnd is { } end && now < end && presentBegin is not null)
        {
            return;
        }

        (presentBegin, presentEnd) = (null, null);
        foreach (var period in periods)
        {
            // Where shifts overlap, the one that began last is on.
            if (period.At(now, zone) is { } found && (presentBegin is null || found.Begin > presentBegin))
            {
                (presentBegin, presentEnd) = (found.Begin, found.End);
            }
        }

        if (presentBegin is { } begin && (counts.Last is null || counts.Last.Value.Begin < begin))
        {
            counts.AddLast((begin, 0));
        }
    }

    public void Count(DateTimeOffset at)
    {
        Advance(at);
        if (presentBegin is not null && counts.Last is { } last)
        {
            last.Value = (last.Value.Begin, last.Value.Count + 1);
        }
    }

    public void Forget(DateTimeOffset before)
    {
        while (counts.First is { } first && first.Value.Begin < before && counts.Count > 1)
        {
            counts.RemoveFirst();
        }
    }
}
