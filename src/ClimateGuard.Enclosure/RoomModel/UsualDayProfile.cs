using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>The usual working day of a zone: means by clock time over the days on which a shift begins.</summary>
internal static class UsualDayProfile
{
    /// <summary>The profile; null when the hall is never known.</summary>
    public static DayProfile? Of(Zone zone, IReadOnlyList<ZoneMoment> minutes, IReadOnlyList<Shift> shifts, TimeZoneInfo local)
    {
        var working = shifts.SelectMany(shift => shift.Days).ToHashSet();
        var (hall, load) = (new ClockMeans(), new ClockMeans());
        foreach (var moment in minutes)
        {
            var clock = TimeZoneInfo.ConvertTime(DateTimeOffset.FromUnixTimeMilliseconds(moment.EpochMilliseconds), local);
            if (working.Count > 0 && !working.Contains(clock.DayOfWeek)) continue;
            var minute = (clock.Hour * 60) + clock.Minute;
            hall.Add(minute, moment.HallCelsius);
            load.Add(minute, moment.LoadKilowatts);
        }

        if (hall.Whole() is not { } halls) return null;
        return new DayProfile(halls, load.Whole() ?? new double[DayProfile.Minutes], [.. Enumerable.Repeat(zone.Setpoint.Value, DayProfile.Minutes)]);
    }

    private sealed class ClockMeans
    {
        private readonly double[] sums = new double[DayProfile.Minutes];
        private readonly int[] counts = new int[DayProfile.Minutes];

        public void Add(int minute, double value)
        {
            if (!double.IsFinite(value)) return;
            sums[minute] += value;
            counts[minute]++;
        }

        // A minute that nothing tells of is as the one before it, around the clock.
        public double[]? Whole()
        {
            var last = Array.FindLastIndex(counts, count => count > 0);
            if (last < 0) return null;
            var means = new double[DayProfile.Minutes];
            var before = sums[last] / counts[last];
            for (var minute = 0; minute < means.Length; minute++)
            {
                if (counts[minute] > 0) before = sums[minute] / counts[minute];
                means[minute] = before;
            }

            return means;
        }
    }
}
