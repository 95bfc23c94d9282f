using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>The set points that the plant file states for a zone week by week, as changes in time. Immutable.</summary>
/// <remarks>Right on nights when the clocks change: a time that they skip lies at the moment of the skip; of an hour that comes twice the first counts.</remarks>
/// <param name="zone">The zone.</param>
/// <param name="local">Where it stands.</param>
public sealed class SetBackProgramme(Zone zone, TimeZoneInfo local)
{
    private const int DaysBack = 9;
    private const int DaysAhead = 2;

    /// <summary>The changes of the days around a moment, ascending: from nine days before, so that the one in force is among them, to two days after.</summary>
    /// <param name="moment">The moment.</param>
    /// <returns>None when no set-back is stated.</returns>
    public IReadOnlyList<SetpointChange> Around(DateTimeOffset moment)
    {
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(moment, local).DateTime);
        var ends = new List<SetpointChange>();
        var begins = new List<SetpointChange>();
        for (var day = -DaysBack; day <= DaysAhead && zone.SetBacks.Count > 0; day++)
        {
            var date = today.AddDays(day);
            ends.AddRange(zone.SetBacks.Where(s => s.Until.Day == date.DayOfWeek).Select(s => new SetpointChange(At(date, s.Until), zone.Setpoint.Value)));
            begins.AddRange(zone.SetBacks.Where(s => s.From.Day == date.DayOfWeek).Select(s => new SetpointChange(At(date, s.From), s.Setpoint.Value)));
        }

        // Where one begins as another ends, the begin counts.
        return [.. ends.Concat(begins).OrderBy(change => change.At)];
    }

    /// <summary>The set point stated for a moment, in °C: that of the set-back, else that of the zone.</summary>
    public double At(DateTimeOffset moment)
    {
        var asked = zone.Setpoint.Value;
        if (zone.SetBacks.Count == 0) return asked;
        var clock = TimeZoneInfo.ConvertTime(moment, local);
        var minute = new WeekTime(clock.DayOfWeek, TimeOnly.FromDateTime(clock.DateTime)).MinuteOfWeek;
        foreach (var back in zone.SetBacks)
        {
            if (Since(back.From, minute) < Since(back.From, back.Until.MinuteOfWeek)) return back.Setpoint.Value;
        }

        return asked;
    }

    private static int Since(WeekTime from, int minute) => (minute - from.MinuteOfWeek + WeekTime.MinutesPerWeek) % WeekTime.MinutesPerWeek;

    private DateTimeOffset At(DateOnly date, WeekTime time) => LocalInstant.Of(date.ToDateTime(time.Time), local, first: true);
}
