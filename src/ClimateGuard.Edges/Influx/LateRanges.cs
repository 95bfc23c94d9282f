namespace ClimateGuard.Edges.Influx;

/// <summary>Puts the moments that must be asked for into few ranges: a question for each moment would be slow, one from the first to the last endless.</summary>
internal static class LateRanges
{
    private const long WidestMilliseconds = 600_000;
    private const long GapMilliseconds = 60_000;

    /// <summary>The ranges of each sensor, both ends inclusive.</summary>
    public static IEnumerable<(string Sensor, long From, long To)> Of(IEnumerable<(string Sensor, long Time)> moments)
    {
        foreach (var sensor in moments.GroupBy(moment => moment.Sensor))
        {
            long? from = null;
            var to = 0L;
            foreach (var (_, time) in sensor.OrderBy(moment => moment.Time))
            {
                if (from is { } begin && (time - to > GapMilliseconds || time - begin > WidestMilliseconds))
                {
                    yield return (sensor.Key, begin, to);
                    from = null;
                }

                from ??= time;
                to = time;
            }

            if (from is { } last)
            {
                yield return (sensor.Key, last, to);
            }
        }
    }
}
