namespace ClimateGuard.Watch;

/// <summary>Compares the air sensors of each zone with each other, once a minute; how late they follow, once an hour.</summary>
internal sealed class NeighbourPass(SensorRecord[] records)
{
    /// <summary>The newest minute that is looked at lies so far back, so that what is a little late is in.</summary>
    public const int Behind = 2;

    private const double MovedKelvins = 0.2;
    private const double MovedSteps = 1.5;
    private const int FastReporterMinutes = 2;

    private readonly NeighbourGroup[] groups = NeighbourGroup.Of(records);
    private int hour;

    /// <summary>Looks at the minute that has just been closed.</summary>
    /// <param name="now">The minute since 1970 that has begun.</param>
    public void Run(int now)
    {
        var minute = now - Behind;
        var newHour = now / 60 != hour;
        hour = now / 60;
        foreach (var group in groups)
        {
            var count = group.Take(minute);
            for (var i = 0; i < group.Members.Length; i++)
            {
                var member = group.Members[i];
                var (middle, spread) = count >= NeighbourGroup.Least ? group.Others(i, count) : (double.NaN, double.NaN);
                member.Level!.Take(group.Values[i] - middle, spread);
                AskStuck(member, group.Middle, minute);
                if (newHour && member.Period.Period.TotalMinutes <= FastReporterMinutes)
                {
                    member.Lag!.Look(member.Minutes!, group.Middle, minute, FastReporterMinutes);
                }
            }
        }
    }

    // The zone moved by more than the sensor could have missed while it said the same digits (F14).
    private static void AskStuck(SensorRecord member, MinuteMeans middle, int minute)
    {
        if (!member.Stuck.IsSuspect)
        {
            return;
        }

        var since = (int)Math.Max(member.Stuck.Since / 60_000, minute - MinuteMeans.Remembered + 1);
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var at = since; at <= minute; at++)
        {
            var value = middle.At(at);
            if (!double.IsNaN(value))
            {
                (low, high) = (Math.Min(low, value), Math.Max(high, value));
            }
        }

        if (high - low > Math.Max(MovedKelvins, MovedSteps * member.Steps.Size))
        {
            member.Stuck.NeighboursMoved();
        }
    }
}
