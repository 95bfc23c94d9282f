namespace ClimateGuard.Watch;

/// <summary>Notices that a sensor says the same digits for too long.</summary>
/// <remarks>
/// Two ways to be sure: the neighbours moved meanwhile (asked by <see cref="NeighbourPass"/>), or the sensor used to change its digits nearly every
/// reading and has not done so for an hour and a hundred readings. A coarse sensor in a still room is neither.
/// </remarks>
internal sealed class StuckWatch
{
    /// <summary>The same digits for so long are worth a question.</summary>
    public static readonly TimeSpan LongEnough = TimeSpan.FromMinutes(60);

    private const int ManyReadings = 100;
    private const int FewReadings = 6;
    private const double LivelyRun = 3;
    private const int RunsToKnow = 30;
    private const int ChangesToTrustAgain = 2;

    private double last = double.NaN;
    private long since;
    private long newest;
    private int run;
    private double usualRun;
    private int runs;
    private int changes;

    /// <summary>Whether its readings are set aside as stuck.</summary>
    public bool IsStuck { get; private set; }

    /// <summary>Event time of the first reading with the digits it says now, in ms.</summary>
    public long Since => since;

    /// <summary>The same digits for an hour, so that the neighbours should be asked.</summary>
    public bool IsSuspect => !IsStuck && run >= FewReadings && newest - since >= LongEnough.TotalMilliseconds;

    /// <summary>Takes the newest value as decoded.</summary>
    /// <param name="value">The value.</param>
    /// <param name="at">Its event time in ms.</param>
    public void Take(double value, long at)
    {
        newest = at;
        if (value != last)
        {
            Change(value, at);
            return;
        }

        run++;
        IsStuck |= IsSuspect && run >= ManyReadings && runs >= RunsToKnow && usualRun <= LivelyRun;
    }

    /// <summary>The neighbours moved while it did not.</summary>
    public void NeighboursMoved() => (IsStuck, changes) = (true, 0);

    private void Change(double value, long at)
    {
        if (IsStuck)
        {
            changes++;
            IsStuck = changes < ChangesToTrustAgain;
        }
        else
        {
            changes = 0;
            usualRun = runs == 0 ? run : usualRun + ((run - usualRun) / Math.Min(runs + 1, 100));
            runs = Math.Min(runs + 1, 1000);
        }

        (last, since, run) = (value, at, 1);
    }
}
