namespace ClimateGuard.Edges.Mqtt;

/// <summary>Lets one line a minute through and counts the rest, so that a flood of bad messages does not fill the disk with words.</summary>
/// <remarks>Safe across threads; at worst a second line passes in the same minute.</remarks>
internal sealed class LogPace(TimeProvider time)
{
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(1);

    private readonly Lock gate = new();
    private long? last;
    private long held;

    /// <summary>Whether a line may be written now.</summary>
    /// <param name="heldBack">How many were held back since the last one.</param>
    internal bool MayWrite(out long heldBack)
    {
        lock (gate)
        {
            heldBack = held;
            if (last is { } then && time.GetElapsedTime(then) < Least)
            {
                held++;
                return false;
            }

            last = time.GetTimestamp();
            held = 0;
            return true;
        }
    }
}
