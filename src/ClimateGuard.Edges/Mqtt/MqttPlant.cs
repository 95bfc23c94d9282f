using System.Threading.Channels;
using ClimateGuard.Plant;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Follows a changed plant file on the live connection: topics of sensors, subscriptions, and the version on the status topic.</summary>
/// <remarks>
/// <see cref="Use"/> changes at once how topics are read and returns; a task of the connection subscribes and tells. So a slow broker never
/// holds up the loop, and no message of a new topic comes before it can be read.
/// </remarks>
public sealed class MqttPlant
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(30);

    private readonly BrokerLink link;
    private readonly MqttReadings readings;
    private readonly IReadOnlyList<string> readingFilters;
    private readonly ILogger<MqttPlant> logger;
    private readonly Channel<bool> news = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private volatile WorkerIdentity? untold;

    /// <summary>Attaches to a link that is not started yet.</summary>
    /// <param name="link">The link.</param>
    /// <param name="readings">Whose topics change.</param>
    /// <param name="readingFilters">Patterns of topics, see <see cref="TopicMap"/>.</param>
    /// <param name="logger">The log.</param>
    public MqttPlant(BrokerLink link, MqttReadings readings, IReadOnlyList<string> readingFilters, ILogger<MqttPlant> logger)
    {
        ArgumentNullException.ThrowIfNull(link);
        this.link = link;
        this.readings = readings;
        this.readingFilters = readingFilters;
        this.logger = logger;
        link.WhileConnected(FollowAsync);
    }

    /// <summary>Reads topics as another version of the cell says, from the next message on.</summary>
    /// <param name="cell">The cell; of the same id.</param>
    /// <param name="now">Who we are under this version.</param>
    public void Use(Cell cell, WorkerIdentity now)
    {
        readings.Use(cell, new TopicMap(cell, readingFilters));
        untold = now;
        news.Writer.TryWrite(true);
    }

    private async Task FollowAsync(BrokerConnection connection)
    {
        try
        {
            while (!connection.Ended.IsCancellationRequested)
            {
                var next = await TryCatchUpAsync(connection) ? Timeout.InfiniteTimeSpan : Pause;
                await Task.WhenAny(news.Reader.WaitToReadAsync(connection.Ended).AsTask(), Task.Delay(next, connection.Ended));
                news.Reader.TryRead(out _);
            }
        }
        catch (Exception ended) when (connection.Ended.IsCancellationRequested)
        {
            logger.LogDebug(ended, "The subscriptions follow with the next connection");
        }
    }

    private async Task<bool> TryCatchUpAsync(BrokerConnection connection)
    {
        try
        {
            await link.Subscriptions.ApplyAsync(connection, connection.Ended);
            if (untold is { } identity)
            {
                await link.AnnounceAsync(identity, connection.Ended);
                Interlocked.CompareExchange(ref untold, null, identity);
            }

            return true;
        }
        catch (Exception failed) when (failed is not OutOfMemoryException && !connection.Ended.IsCancellationRequested)
        {
            logger.LogError(
                "The plant file changed, but {Reason}. Readings of these topics do not come; next try in {Pause}", BrokerFailure.Explain(failed), Pause);
            return false;
        }
    }
}
