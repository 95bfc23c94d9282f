namespace ClimateGuard.Enclosure;

/// <summary>The moment at which a local clock shows a time.</summary>
public static class LocalInstant
{
    /// <summary>The moment, in UTC; a time that the clocks skip lies at the moment of the skip.</summary>
    /// <param name="local">What the clock shows.</param>
    /// <param name="zone">Where it hangs.</param>
    /// <param name="first">Of an hour that comes twice: whether the first counts, else the second.</param>
    public static DateTimeOffset Of(DateTime local, TimeZoneInfo zone, bool first)
    {
        ArgumentNullException.ThrowIfNull(zone);
        while (zone.IsInvalidTime(local)) local = local.AddMinutes(1);
        var offset = zone.IsAmbiguousTime(local)
            ? first ? zone.GetAmbiguousTimeOffsets(local).Max() : zone.GetAmbiguousTimeOffsets(local).Min()
            : zone.GetUtcOffset(local);
        return new DateTimeOffset(local, offset).ToUniversalTime();
    }
}
