using System.Buffers;
using System.Collections.Concurrent;
using System.Threading.Channels;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;
using MQTTnet;
using MQTTnet.Protocol;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Readings and events from the broker.</summary>
/// <remarks>
/// A QoS 1 message is acknowledged when the loop says it is on disk, in order of arrival [MQTT-4.6.0-2], and only on the connection it
/// came on; otherwise the broker sends it again. When the queue is full the handler waits, and with it, up to the receive maximum, the
/// broker. A flood at QoS 0 is held back by nobody: it gathers in the client's memory, so sensors should publish with QoS 1.
/// </remarks>
public sealed class MqttReadings : IReadingSource
{
    private const int MostArrivals = 8192;
    private const int MostReasonsKept = 1000;

    private readonly BrokerLink link;
    private readonly TimeProvider time;
    private readonly ILogger<MqttReadings> logger;
    private readonly MqttPermits? permits;
    private readonly LogPace pace;
    private readonly Channel<Arrival> arrivals;

    private volatile PlantTopics plant;

    // Finding the nearest names costs a walk over all sensors; a misconfigured gateway sends the same topic all day.
    private readonly ConcurrentDictionary<string, string> unknownTopics = new(StringComparer.Ordinal);

    /// <summary>Attaches to a link that is not started yet.</summary>
    /// <param name="link">The link.</param>
    /// <param name="cell">The cell whose sensors are read.</param>
    /// <param name="topics">Which topic belongs to which sensor.</param>
    /// <param name="time">The clock.</param>
    /// <param name="logger">The log.</param>
    /// <param name="permits">Who answers requests; null when nobody does.</param>
    public MqttReadings(
        BrokerLink link, Cell cell, TopicMap topics, TimeProvider time, ILogger<MqttReadings> logger, MqttPermits? permits = null)
    {
        ArgumentNullException.ThrowIfNull(link);
        ArgumentNullException.ThrowIfNull(topics);
        this.link = link;
        this.time = time;
        this.logger = logger;
        this.permits = permits;
        plant = new PlantTopics(cell, topics, new ReadingDecoder(cell));
        pace = new LogPace(time);
        arrivals = Channel.CreateBounded<Arrival>(new BoundedChannelOptions(MostArrivals)
        {
            SingleReader = true,
            FullMode = BoundedChannelFullMode.Wait,
        });
        link.Receive([.. topics.Subscriptions, .. link.Topics.EventFilters], ReceiveAsync);
    }

    /// <inheritdoc/>
    public ChannelReader<Arrival> Arrivals => arrivals.Reader;

    /// <summary>Reads topics by another version of the cell from the next message on; what is subscribed to follows in <see cref="MqttPlant"/>.</summary>
    /// <param name="cell">The cell; of the same id.</param>
    /// <param name="topics">Which topic belongs to which of its sensors.</param>
    internal void Use(Cell cell, TopicMap topics)
    {
        plant = new PlantTopics(cell, topics, new ReadingDecoder(cell));
        unknownTopics.Clear();
        link.Subscriptions.Want([.. topics.Subscriptions, .. link.Topics.EventFilters]);
    }

    /// <inheritdoc/>
    public async ValueTask AcknowledgeAsync(ReadOnlyMemory<Arrival> batch, CancellationToken cancellation)
    {
        for (var i = 0; i < batch.Length && !cancellation.IsCancellationRequested; i++)
        {
            if (BrokerMessage.Behind(batch.Span[i].Receipt) is { } received)
            {
                await received.Connection.AcknowledgeAsync(received.Message);
            }
        }
    }

    private Task ReceiveAsync(BrokerMessage received)
    {
        var message = received.Message.ApplicationMessage;
        var now = time.GetUtcNow();
        var arrival = Decode(message, now) with
        {
            ArrivedAt = now,
            Retained = message.Retain,
            Receipt = message.QualityOfServiceLevel == MqttQualityOfServiceLevel.AtMostOnce ? null : received.Receipt,
        };
        return arrivals.Writer.TryWrite(arrival)
            ? Task.CompletedTask
            : arrivals.Writer.WriteAsync(arrival, received.Connection.Ended).AsTask();
    }

    private Arrival Decode(MqttApplicationMessage message, DateTimeOffset now)
    {
        var known = plant;
        var sensor = known.Topics.IndexOf(message.Topic);
        if (sensor >= 0)
        {
            var read = known.Decoder.Decode(sensor, message.Payload, now);
            return read.Reason is null
                ? new Arrival { Reading = read.Reading, Cell = known.Cell, TimeIsArrival = read.TimeIsArrival }
                : Unreadable(message, read.Reason);
        }

        if (!link.Topics.TryReadEvent(message.Topic, out var address))
        {
            return Unreadable(message, ReasonForUnknown(message.Topic));
        }

        var payload = message.Payload;
        if (payload.Length > EventDecoder.MostBytes)
        {
            return Unreadable(message, $"the event has {payload.Length} bytes; at most {EventDecoder.MostBytes} are read");
        }

        var found = EventDecoder.Decode(address.Type, address.Machine, payload.ToArray(), now);
        return message.Retain ? Kept(message, found) : Live(message, address, found);
    }

    private Arrival Live(MqttApplicationMessage message, EventAddress address, EventResult found)
    {
        if (found.Event is PermitRequested request)
        {
            permits?.Expect(request, message);
        }
        else if (found.Event is null && address is { Type: EventTypes.PermitRequest, Machine: { } machine })
        {
            permits?.Refuse(machine, message, found.Reason!);
        }

        return found.Event is not null
            ? new Arrival { Event = found.Event, TimeIsArrival = found.TimeIsArrival }
            : Unreadable(message, found.Reason!);
    }

    /// <summary>
    /// What the broker kept from before is never live. What is loaded on a machine still counts; a temperature measured then does not,
    /// unless it says when.
    /// </summary>
    private Arrival Kept(MqttApplicationMessage message, EventResult found) => found.Event switch
    {
        JobLoaded job => new Arrival { Event = found.TimeIsArrival && job.EnteredCell is null ? job with { Start = null } : job, TimeIsArrival = found.TimeIsArrival },
        null => Unreadable(message, found.Reason!),
        _ => Unreadable(message, "the broker kept this event from before, so it is not live; send it without the retain flag"),
    };

    private Arrival Unreadable(MqttApplicationMessage message, string reason)
    {
        var topic = Printable.Clean(message.Topic, 200);
        if (pace.MayWrite(out var more))
        {
            logger.LogWarning(
                "A message on {Topic} cannot be read: {Reason}{More}", topic, reason, more > 0 ? $" ({more} more since the last line)" : "");
        }

        return new Arrival { Unreadable = new UnreadableMessage(topic, reason, Printable.Start(message.Payload)) };
    }

    private string ReasonForUnknown(string topic)
    {
        if (unknownTopics.TryGetValue(topic, out var known))
        {
            return known;
        }

        var prefix = link.Topics.Reading("");
        var isDefault = topic.StartsWith(prefix, StringComparison.Ordinal);
        var shown = Printable.Clean(isDefault ? topic[prefix.Length..] : topic, 100);
        if (unknownTopics.Count >= MostReasonsKept)
        {
            return $"unknown sensor \"{shown}\": no sensor of the plant file has this topic";
        }

        var topics = plant.Topics;
        var names = isDefault
            ? [.. topics.Known.Where(name => name.StartsWith(prefix, StringComparison.Ordinal)).Select(name => name[prefix.Length..])]
            : topics.Known;
        var reason = $"unknown sensor \"{shown}\": no sensor of the plant file has this topic; {NearestNames.Hint(shown, names)}";
        unknownTopics[topic] = reason;
        return reason;
    }

    /// <summary>All that hangs on one version of the cell, so that a message is read by one version throughout.</summary>
    private sealed record PlantTopics(Cell Cell, TopicMap Topics, ReadingDecoder Decoder);
}
