using System.Threading.Channels;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;
using MQTTnet;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Answers requests over the broker: to the response topic with its correlation data, else to <c>…/permit/answer</c>.</summary>
/// <remarks>
/// Never late: an answer carries a message expiry of ten seconds, and one that could not be sent within them is dropped with a line in the
/// log (the ledger has it, and the same request id gets it again). Never retained.
/// </remarks>
public sealed class MqttPermits : IAlertChannel
{
    /// <summary>How long an answer may travel.</summary>
    public static readonly TimeSpan Lifetime = TimeSpan.FromSeconds(10);

    private const int MostAddresses = 10_000;

    private readonly Topics topics;
    private readonly TimeProvider time;
    private readonly ILogger<MqttPermits> logger;
    private readonly Lock gate = new();
    private readonly Dictionary<(string Machine, string RequestId), ReplyAddress> addresses = [];
    private readonly Channel<Outgoing> outgoing = Channel.CreateBounded<Outgoing>(new BoundedChannelOptions(MostAddresses) { FullMode = BoundedChannelFullMode.DropOldest });

    /// <summary>Attaches to a link that is not started yet.</summary>
    /// <param name="link">The link.</param>
    /// <param name="time">The clock.</param>
    /// <param name="logger">The log.</param>
    public MqttPermits(BrokerLink link, TimeProvider time, ILogger<MqttPermits> logger)
    {
        ArgumentNullException.ThrowIfNull(link);
        topics = link.Topics;
        this.time = time;
        this.logger = logger;
        link.WhileConnected(SendWhileConnectedAsync);
    }

    /// <inheritdoc/>
    public string Name => "permits over MQTT";

    /// <inheritdoc/>
    public ValueTask TellAsync(IReadOnlyList<Decision> decisions, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(decisions);
        foreach (var decision in decisions)
        {
            if (decision is RequestAnswered { Answer: var answer })
            {
                var until = time.GetUtcNow() + Lifetime;
                outgoing.Writer.TryWrite(new Outgoing(Take(answer.Machine, answer.RequestId, until), PermitJson.ToUtf8(answer)));
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <summary>Remembers where the answer to a request is to go.</summary>
    internal void Expect(PermitRequested request, MqttApplicationMessage message)
    {
        if (message.ResponseTopic is not { Length: > 0 } topic || topic.AsSpan().IndexOfAny('#', '+') >= 0)
        {
            return;
        }

        var now = time.GetUtcNow();
        lock (gate)
        {
            if (addresses.Count >= MostAddresses)
            {
                foreach (var gone in addresses.Where(pair => pair.Value.Until < now).Select(pair => pair.Key).ToArray())
                {
                    addresses.Remove(gone);
                }
            }

            if (addresses.Count < MostAddresses)
            {
                addresses[(request.Machine, request.RequestId)] = new(topic, message.CorrelationData, now + Lifetime);
            }
        }
    }

    /// <summary>Answers a request that could not be read, so that the control does not wait in vain.</summary>
    internal void Refuse(string machine, MqttApplicationMessage message, string reason)
    {
        var until = time.GetUtcNow() + Lifetime;
        var topic = message.ResponseTopic is { Length: > 0 } wanted && wanted.AsSpan().IndexOfAny('#', '+') < 0 ? wanted : topics.PermitAnswer(machine);
        var payload = JsonText.ToUtf8((machine, reason), static (writer, value) =>
        {
            writer.WriteStartObject();
            writer.WriteNull("requestId");
            writer.WriteString("answer", "UNKNOWN");
            writer.WriteString("reasonCode", "REQUEST_UNREADABLE");
            writer.WriteString("text", PermitAnswer.Shortened(value.reason));
            writer.WriteString("machine", value.machine);
            writer.WriteNull("permitId");
            writer.WriteEndObject();
        });
        outgoing.Writer.TryWrite(new Outgoing(new ReplyAddress(topic, message.CorrelationData, until), payload));
    }

    private ReplyAddress Take(string machine, string requestId, DateTimeOffset until)
    {
        lock (gate)
        {
            return addresses.Remove((machine, requestId), out var address) && address.Until >= time.GetUtcNow()
                ? address
                : new ReplyAddress(topics.PermitAnswer(machine), null, until);
        }
    }

    private async Task SendWhileConnectedAsync(BrokerConnection connection)
    {
        try
        {
            while (await outgoing.Reader.WaitToReadAsync(connection.Ended))
            {
                while (outgoing.Reader.TryRead(out var answer))
                {
                    await SendAsync(connection, answer);
                }
            }
        }
        catch (OperationCanceledException) when (connection.Ended.IsCancellationRequested)
        {
            logger.LogDebug("Answers wait for the next connection, for at most {Lifetime}", Lifetime);
        }
    }

    private async Task SendAsync(BrokerConnection connection, Outgoing answer)
    {
        var left = answer.To.Until - time.GetUtcNow();
        if (left <= TimeSpan.Zero)
        {
            logger.LogWarning("An answer to {Topic} is not sent any more: it would come too late. The same request id gets it again.", answer.To.Topic);
            return;
        }

        try
        {
            var message = new MqttApplicationMessage
            {
                Topic = answer.To.Topic,
                PayloadSegment = answer.Payload,
                CorrelationData = answer.To.Correlation,
                ContentType = "application/json",
                MessageExpiryInterval = (uint)Math.Max(1, Math.Ceiling(left.TotalSeconds)),
            };
            await connection.PublishAsync(message, connection.Ended);
        }
        catch (Exception failed) when (failed is not OutOfMemoryException)
        {
            logger.LogWarning("An answer to {Topic} was not sent: {Reason}", answer.To.Topic, BrokerFailure.Explain(failed));
            outgoing.Writer.TryWrite(answer);
        }
    }

    private sealed record Outgoing(ReplyAddress To, byte[] Payload);
}
