using Microsoft.Extensions.Logging;
using MQTTnet;
using MQTTnet.Protocol;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>One connection to the broker, from its begin to its end, with an MQTT client of its own.</summary>
/// <remarks>
/// A new connection is a new client. A packet identifier means something only within its connection: acknowledged on a later one, it
/// removes whatever message bears that number there (seen with mosquitto 2.0.11). With a client each, that cannot happen.
/// </remarks>
internal sealed class BrokerConnection : IDisposable
{
    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly CancellationTokenSource ended = new();
    private readonly TaskCompletionSource<MqttClientDisconnectedEventArgs> completion = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Func<BrokerMessage, Task> receive;
    private readonly ILogger logger;
    private readonly IReadOnlyCollection<string>? publishedOnly;
    private int disposed;

    /// <param name="receive">Takes what comes in.</param>
    /// <param name="logger">The log.</param>
    /// <param name="publishedOnly">The only topics to which anything is sent, or null for all.</param>
    internal BrokerConnection(Func<BrokerMessage, Task> receive, ILogger logger, IReadOnlyCollection<string>? publishedOnly = null)
    {
        this.publishedOnly = publishedOnly;
        this.receive = receive;
        this.logger = logger;

        // Cancelled when the connection is over, never by anyone else.
        Ended = ended.Token;

        // Before ConnectAsync: redelivery begins right after CONNACK.
        client.ApplicationMessageReceivedAsync += OnMessageAsync;
        client.DisconnectedAsync += OnDisconnectedAsync;
    }

    /// <summary>Cancelled when the connection is over.</summary>
    internal CancellationToken Ended { get; }

    /// <summary>What this connection has subscribed to, whether or not the session knew it before.</summary>
    internal HashSet<string> Subscribed { get; } = new(StringComparer.Ordinal);

    /// <summary>Connects and subscribes.</summary>
    /// <exception cref="BrokerRefusedException">The broker refused the connection or a subscription.</exception>
    internal async Task<bool> OpenAsync(MqttClientOptions options, IReadOnlyList<string> filters, CancellationToken cancellation)
    {
        var result = await client.ConnectAsync(options, cancellation);
        if (result.ResultCode != MqttClientConnectResultCode.Success)
        {
            throw new BrokerRefusedException(BrokerFailure.Explain(result));
        }

        await SubscribeAsync(filters, cancellation);
        return result.IsSessionPresent;
    }

    /// <summary>Publishes with QoS 1 and waits for the broker's acknowledgement.</summary>
    /// <exception cref="BrokerRefusedException">The broker did not take the message.</exception>
    internal Task PublishAsync(string topic, byte[] payload, bool retain, CancellationToken cancellation) => PublishAsync(
        new MqttApplicationMessage { Topic = topic, PayloadSegment = payload, Retain = retain, ContentType = "application/json" }, cancellation);

    /// <summary>Publishes a message with QoS 1 and waits for the broker's acknowledgement; that nobody listens is no failure.</summary>
    /// <exception cref="BrokerRefusedException">The broker did not take the message.</exception>
    internal async Task PublishAsync(MqttApplicationMessage message, CancellationToken cancellation)
    {
        if (publishedOnly?.Contains(message.Topic) == false)
        {
            return;
        }

        message.QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce;
        var result = await client.PublishAsync(message, cancellation);
        if (!result.IsSuccess)
        {
            throw new BrokerRefusedException($"the broker did not take {message.Topic}: {result.ReasonCode} {result.ReasonString}".TrimEnd());
        }
    }

    /// <summary>Acknowledges a message of this connection; of a connection that is over nothing is sent.</summary>
    /// <returns>Whether it was sent. When not, the broker sends the message again.</returns>
    internal async ValueTask<bool> AcknowledgeAsync(MqttApplicationMessageReceivedEventArgs message)
    {
        if (Ended.IsCancellationRequested)
        {
            return false;
        }

        try
        {
            await message.AcknowledgeAsync(CancellationToken.None);
            return true;
        }
        catch (Exception lost) when (lost is not OutOfMemoryException)
        {
            // The connection broke meanwhile; the client then throws whatever it stumbles over, a null reference included.
            logger.LogDebug(lost, "An acknowledgement was not sent; the broker will send the message again");
            return false;
        }
    }

    /// <summary>How the connection ended.</summary>
    internal Task<MqttClientDisconnectedEventArgs> WaitForEndAsync(CancellationToken cancellation) => completion.Task.WaitAsync(cancellation);

    /// <summary>Says goodbye, so that the broker discards the last will [MQTT-3.14.4-3].</summary>
    internal async Task CloseAsync(CancellationToken cancellation)
    {
        if (client.IsConnected)
        {
            await client.DisconnectAsync(new MqttClientDisconnectOptions(), cancellation);
        }
    }

    /// <summary>Ends the connection without goodbye if it is still there.</summary>
    public void Dispose()
    {
        if (Interlocked.Exchange(ref disposed, 1) != 0)
        {
            return;
        }

        ended.Cancel();
        client.Dispose();
        ended.Dispose();
    }

    /// <summary>Subscribes, also while connected; nothing when there is no filter.</summary>
    /// <exception cref="BrokerRefusedException">The broker refused one.</exception>
    internal async Task SubscribeAsync(IReadOnlyList<string> filters, CancellationToken cancellation)
    {
        if (filters.Count == 0)
        {
            return;
        }

        var options = new MqttClientSubscribeOptionsBuilder();
        foreach (var filter in filters)
        {
            // Subscribing again in a session that is present changes nothing and takes up filters that are new in the settings;
            // what is retained comes only with the first subscription, not with every reconnection.
            options.WithTopicFilter(
                filter,
                MqttQualityOfServiceLevel.AtLeastOnce,
                noLocal: true,
                retainAsPublished: false,
                MqttRetainHandling.SendAtSubscribeIfNewSubscriptionOnly);
        }

        var result = await client.SubscribeAsync(options.Build(), cancellation);
        var refused = result.Items.Where(item => (int)item.ResultCode >= 0x80).ToList();
        if (refused.Count > 0)
        {
            throw new BrokerRefusedException(
                $"the broker does not let us subscribe to {string.Join(", ", refused.Select(item => item.TopicFilter.Topic))} "
                + $"({refused[0].ResultCode}): check its access list for this user");
        }

        Subscribed.UnionWith(filters);
    }

    /// <summary>Ends subscriptions of the session; one that was none is no failure.</summary>
    internal async Task UnsubscribeAsync(IReadOnlyList<string> filters, CancellationToken cancellation)
    {
        if (filters.Count == 0)
        {
            return;
        }

        var options = new MqttClientUnsubscribeOptionsBuilder();
        foreach (var filter in filters)
        {
            options.WithTopicFilter(filter);
        }

        await client.UnsubscribeAsync(options.Build(), cancellation);
        Subscribed.ExceptWith(filters);
    }

    private async Task OnMessageAsync(MqttApplicationMessageReceivedEventArgs message)
    {
        message.AutoAcknowledge = false;
        message.Tag = this;
        try
        {
            await receive(new BrokerMessage(message, this));
        }
        catch (OperationCanceledException)
        {
            // The connection ended while the queue was full: the broker sends the message again.
        }
    }

    private Task OnDisconnectedAsync(MqttClientDisconnectedEventArgs how)
    {
        completion.TrySetResult(how);
        try
        {
            ended.Cancel();
        }
        catch (ObjectDisposedException)
        {
            // Disposed first: everyone has been told already.
        }

        return Task.CompletedTask;
    }
}

/// <summary>A message with the connection it came on, to which alone its acknowledgement belongs.</summary>
/// <remarks>A value, so that a burst of readings costs no allocation here: the client's own object carries the connection along.</remarks>
/// <param name="Message">The message as the client hands it over.</param>
/// <param name="Connection">Its connection.</param>
internal readonly record struct BrokerMessage(MqttApplicationMessageReceivedEventArgs Message, BrokerConnection Connection)
{
    /// <summary>What the message is acknowledged by later; opaque to everyone else.</summary>
    internal object Receipt => Message;

    /// <summary>The message behind a receipt, or null when it is none.</summary>
    internal static BrokerMessage? Behind(object? receipt) =>
        receipt is MqttApplicationMessageReceivedEventArgs { Tag: BrokerConnection connection } message ? new BrokerMessage(message, connection) : null;
}
