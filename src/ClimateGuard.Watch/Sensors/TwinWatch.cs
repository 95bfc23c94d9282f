namespace ClimateGuard.Watch;

/// <summary>Notices that two devices send under one sensor id: two series that take turns.</summary>
/// <remarks>
/// With sequence numbers, two counters far apart that each go on by themselves. Without, values that jump to and fro between two levels, each
/// of which goes on by itself. One restart, one spike or one step is no evidence: turns must be taken <see cref="TurnsToBelieve"/> times.
/// </remarks>
internal sealed class TwinWatch(double jump)
{
    /// <summary>So many turns between the two series make a twin.</summary>
    public const int TurnsToBelieve = 10;

    private const int QuietToForget = 120;
    private const long CountersApart = 20;
    private const long Gap = 5;

    private double last = double.NaN;
    private double before = double.NaN;
    private long counter = -1;
    private long otherCounter = -1;
    private int turns;
    private int quiet;

    /// <summary>Whether two devices send under this id.</summary>
    public bool IsTwin { get; private set; }

    /// <summary>The two values that take turns, or twice the same when only the counters show it.</summary>
    public (double One, double Other) Values => (before, last);

    /// <summary>Takes the newest value, before anything else is judged on it.</summary>
    /// <param name="value">The value.</param>
    /// <param name="sequence">The sender's number, or -1.</param>
    public void Take(double value, long sequence)
    {
        var turn = sequence >= 0 ? TurnOfCounters(sequence) : TurnOfValues(value);
        (before, last) = (last, value);
        turns = turn ? Math.Min(turns + 1, TurnsToBelieve) : Math.Max(turns - (sequence >= 0 ? 0 : 2), 0);
        quiet = turn ? 0 : Math.Min(quiet + 1, QuietToForget);
        if (quiet >= QuietToForget)
        {
            turns = 0;
        }

        IsTwin = IsTwin ? quiet < QuietToForget : turns >= TurnsToBelieve;
    }

    private bool TurnOfValues(double value)
    {
        var step = Math.Abs(value - last);
        return step > jump && Math.Abs(value - before) < 0.3 * step;
    }

    private bool TurnOfCounters(long sequence)
    {
        if (sequence > counter && sequence <= counter + Gap)
        {
            counter = sequence;
            return false;
        }

        var goesOn = otherCounter >= 0 && sequence > otherCounter && sequence <= otherCounter + Gap && Math.Abs(sequence - counter) > CountersApart;
        (otherCounter, counter) = (counter, sequence);
        return goesOn;
    }
}
