using ClimateGuard.Enclosure;

namespace ClimateGuard.Watch;

/// <summary>A period of the local day, such as a shift or the quiet hours; one that ends at or before its begin ends on the next day.</summary>
/// <remarks>
/// It is laid out in instants, so that a night on which the clocks change has one begin and one end: a begin or end that the clocks skip lies
/// at the moment of the skip; of an hour that comes twice the begin is the first, the end the second.
/// </remarks>
/// <param name="From">Begin, local.</param>
/// <param name="To">End, local, exclusive.</param>
/// <param name="Days">The days on which it begins; empty for every day.</param>
public sealed record LocalPeriod(TimeOnly From, TimeOnly To, IReadOnlyList<DayOfWeek> Days)
{
    /// <summary>The occurrence that holds a moment, or null when none does.</summary>
    /// <param name="now">The moment.</param>
    /// <param name="zone">The local time zone.</param>
    /// <returns>Its begin (inclusive) and end (exclusive), in UTC.</returns>
    public (DateTimeOffset Begin, DateTimeOffset End)? At(DateTimeOffset now, TimeZoneInfo zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).DateTime);
        for (var back = 0; back <= 1; back++)
        {
            var day = today.AddDays(-back);
            if (Days.Count > 0 && !Days.Contains(day.DayOfWeek))
            {
                continue;
            }

            var begin = LocalInstant.Of(day.ToDateTime(From), zone, first: true);
            var end = LocalInstant.Of((To <= From ? day.AddDays(1) : day).ToDateTime(To), zone, first: false);
            if (begin <= now && now < end)
            {
                return (begin, end);
            }
        }

        return null;
    }
}
