namespace ClimateGuard.Watch;

/// <summary>Counts readings of one sensor that were set aside in a row, so that a person is told of a broken sensor and not of each reading.</summary>
internal sealed class RefusalRun
{
    private const int WorthTelling = 5;
    private const int GoodReadingsToEnd = 3;

    private TrustReason reason;
    private int count;
    private int good;

    /// <summary>The reason that a person should hear of, or <see cref="TrustReason.None"/>.</summary>
    public TrustReason Told => count >= WorthTelling ? reason : TrustReason.None;

    /// <summary>A reading was set aside.</summary>
    public void Refused(TrustReason why)
    {
        count = why == reason ? Math.Min(count + 1, WorthTelling) : 1;
        (reason, good) = (why, 0);
    }

    /// <summary>A reading was good.</summary>
    public void Good()
    {
        if (count > 0 && ++good >= GoodReadingsToEnd)
        {
            (count, good) = (0, 0);
        }
    }
}
