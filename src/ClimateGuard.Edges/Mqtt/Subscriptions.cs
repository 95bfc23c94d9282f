namespace ClimateGuard.Edges.Mqtt;

/// <summary>What is to be subscribed to; it may change while connected. Safe across threads.</summary>
internal sealed class Subscriptions
{
    private readonly Lock gate = new();
    private readonly HashSet<string> unwanted = new(StringComparer.Ordinal);
    private IReadOnlyList<string> wanted = [];

    /// <summary>The filters of now.</summary>
    public IReadOnlyList<string> Wanted
    {
        get
        {
            lock (gate)
            {
                return wanted;
            }
        }
    }

    /// <summary>Other filters count from now on.</summary>
    public void Want(IReadOnlyList<string> filters)
    {
        lock (gate)
        {
            unwanted.UnionWith(wanted);
            unwanted.ExceptWith(filters);
            wanted = filters;
        }
    }

    /// <summary>Brings a live connection to the filters of now: first what is new, so that nothing falls between; then what is no longer wanted goes.</summary>
    /// <exception cref="BrokerRefusedException">The broker refused a subscription.</exception>
    public async Task ApplyAsync(BrokerConnection connection, CancellationToken cancellation)
    {
        var (filters, stale) = Now();
        await connection.SubscribeAsync([.. filters.Except(connection.Subscribed)], cancellation);
        await connection.UnsubscribeAsync(stale, cancellation);
        lock (gate)
        {
            // A session outlives its connection: what could not be taken back stays noted for the next one.
            unwanted.ExceptWith(stale);
        }
    }

    private (IReadOnlyList<string> Filters, IReadOnlyList<string> Stale) Now()
    {
        lock (gate)
        {
            return (wanted, [.. unwanted]);
        }
    }
}
