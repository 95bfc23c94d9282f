namespace ClimateGuard.Simulator;

/// <summary>Local time of the cell; the offset is looked up once an hour of virtual time.</summary>
internal sealed class LocalClock
{
    private readonly TimeZoneInfo zone;
    private long offsetHour = long.MinValue;
    private TimeSpan offset;

    public LocalClock(string timeZone)
    {
        // A container without time-zone data still gets a demo, in UTC.
        zone = TimeZoneInfo.TryFindSystemTimeZoneById(timeZone, out var found) ? found : TimeZoneInfo.Utc;
    }

    public DateTime Local(long epochMilliseconds)
    {
        var utc = DateTimeOffset.FromUnixTimeMilliseconds(epochMilliseconds).UtcDateTime;
        var hour = epochMilliseconds / 3_600_000;
        if (hour != offsetHour)
        {
            offset = zone.GetUtcOffset(utc);
            offsetHour = hour;
        }

        return DateTime.SpecifyKind(utc + offset, DateTimeKind.Unspecified);
    }

    public DateTimeOffset FromLocal(DateTime local)
    {
        var unspecified = DateTime.SpecifyKind(local, DateTimeKind.Unspecified);
        return new DateTimeOffset(unspecified, zone.GetUtcOffset(unspecified)).ToUniversalTime();
    }
}
