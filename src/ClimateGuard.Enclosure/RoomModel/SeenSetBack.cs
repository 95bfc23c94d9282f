using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>The set-back that shows in a record where the plant file states none: the farthest beyond half the band that lasted.</summary>
internal static class SeenSetBack
{
    private static readonly TimeSpan Least = TimeSpan.FromHours(3);

    /// <summary>The set-back, begun and ended within the record; null when there is none.</summary>
    public static SetBack? In(Zone zone, IReadOnlyList<ZoneMoment> minutes, TimeZoneInfo local)
    {
        (ZoneMoment Begin, ZoneMoment End)? farthest = null;
        ZoneMoment? begun = null;
        var before = zone.Setpoint.Value;
        var least = zone.Band.Value / 2;
        foreach (var moment in minutes)
        {
            if (!double.IsFinite(moment.SetpointCelsius)) continue;
            var away = Away(moment);
            if (begun is { } begin && moment.SetpointCelsius != begin.SetpointCelsius)
            {
                if (away <= least && Lasted(begin, moment) && !(farthest is { } known && Away(known.Begin) >= Away(begin))) farthest = (begin, moment);
                begun = null;
            }

            // What stands elsewhere from the first minute on began before the record.
            if (begun is null && away > least && moment.SetpointCelsius != before && moment != minutes[0]) begun = moment;
            before = moment.SetpointCelsius;
        }

        return farthest is { } found
            ? new SetBack(TimeOf(found.Begin, local), TimeOf(found.End, local), new Celsius(Math.Round(found.Begin.SetpointCelsius, 1)))
            : null;

        double Away(ZoneMoment moment) => Math.Abs(moment.SetpointCelsius - zone.Setpoint.Value);
    }

    private static bool Lasted(ZoneMoment begin, ZoneMoment end) => TimeSpan.FromMilliseconds(end.EpochMilliseconds - begin.EpochMilliseconds) >= Least;

    private static WeekTime TimeOf(ZoneMoment moment, TimeZoneInfo local)
    {
        var clock = TimeZoneInfo.ConvertTime(DateTimeOffset.FromUnixTimeMilliseconds(moment.EpochMilliseconds), local);
        return new WeekTime(clock.DayOfWeek, new TimeOnly(clock.Hour, clock.Minute));
    }
}
