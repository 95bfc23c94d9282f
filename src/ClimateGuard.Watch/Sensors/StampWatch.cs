namespace ClimateGuard.Watch;

/// <summary>Compares the stamps of one sensor with their arrival, and learns by how much its sender's clock is ahead.</summary>
/// <remarks>
/// A message needs some time, so the least delay seen, arrival less stamp, is what the clock is off by; a clock that is behind cannot be told from
/// a slow way and is left alone. An offset counts as known after <see cref="AgreeingReadings"/> readings in a row within two seconds; then it
/// is kept to the millisecond, so that a second delivery finds its place taken. A stamp more than a day ahead is a wrong date, never an offset.
/// </remarks>
internal sealed class StampWatch
{
    /// <summary>So many readings in a row that agree make a known offset.</summary>
    public const int AgreeingReadings = 5;

    /// <summary>A stamp may be so much later than now; the clocks of a shop are not better.</summary>
    public static readonly TimeSpan Allowance = TimeSpan.FromMilliseconds(AllowanceMilliseconds);

    private const long AllowanceMilliseconds = 5_000;
    private const long Agreement = 2_000;
    private const long WrongDateAhead = 24L * 3600 * 1000;
    private const long WrongDateBehind = 180L * 24 * 3600 * 1000;
    private const long Year2000 = 946_684_800_000;

    private long candidate;
    private int agreeing;

    /// <summary>By how much the sender's clock is ahead, in ms; 0 when it is trusted.</summary>
    public long Ahead { get; private set; }

    /// <summary>Judges a stamp.</summary>
    /// <param name="stamp">The stamp, in ms.</param>
    /// <param name="arrived">When it came in, in ms.</param>
    /// <returns><see cref="TrustReason.None"/> when it may be used (less <see cref="Ahead"/>), else why not.</returns>
    public TrustReason Judge(long stamp, long arrived)
    {
        var ahead = stamp - arrived;
        if (stamp < Year2000 || ahead < -WrongDateBehind)
        {
            return TrustReason.StampTooOld;
        }

        if (ahead > WrongDateAhead)
        {
            agreeing = 0;
            return TrustReason.FromTheFuture;
        }

        if (Ahead == 0 && ahead <= AllowanceMilliseconds)
        {
            agreeing = 0;
            return TrustReason.None;
        }

        if (Ahead != 0 && Math.Abs(ahead - Ahead) <= Agreement)
        {
            agreeing = 0;
            return TrustReason.None;
        }

        Learn(ahead);
        return agreeing < AgreeingReadings ? Meanwhile(ahead) : Settle();
    }

    /// <summary>The clock of this process was set: what was learned against it is void.</summary>
    public void Forget() => (Ahead, agreeing) = (0, 0);

    private void Learn(long ahead)
    {
        var agrees = agreeing > 0 && Math.Abs(ahead - candidate) <= Agreement;
        candidate = agrees ? Math.Max(candidate, ahead) : ahead;
        agreeing = agrees ? agreeing + 1 : 1;
    }

    // Late by a clock that is known is late, as after an outage; but what looks like a clock put right is not used until it proves so.
    private TrustReason Meanwhile(long ahead) => Ahead == 0
        ? TrustReason.FromTheFuture
        : ahead < Ahead && Math.Abs(ahead) > AllowanceMilliseconds ? TrustReason.None : TrustReason.ClockOffset;

    private TrustReason Settle()
    {
        agreeing = 0;
        Ahead = candidate > AllowanceMilliseconds ? candidate : 0;
        return TrustReason.None;
    }
}
