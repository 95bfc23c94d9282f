using System.Threading.Channels;

namespace ClimateGuard.Watch;

/// <summary>Where readings and events come from: a broker, or a file in replay.</summary>
public interface IReadingSource
{
    /// <summary>What came in, in order of arrival. Bounded: a full channel makes the sender wait, nothing is dropped.</summary>
    ChannelReader<Arrival> Arrivals { get; }

    /// <summary>Says that these arrivals are safe on disk; called once for each, in order of arrival, after the commit.</summary>
    /// <param name="batch">Arrivals of this source.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask AcknowledgeAsync(ReadOnlyMemory<Arrival> batch, CancellationToken cancellation);
}
