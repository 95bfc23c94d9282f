using System.Net.Sockets;
using System.Security.Authentication;
using MQTTnet;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Says in words what went wrong with the broker and what to check.</summary>
internal static class BrokerFailure
{
    /// <summary>One sentence for the person who must act; holds no credentials.</summary>
    internal static string Explain(Exception failure)
    {
        for (var cause = failure; cause is not null; cause = cause.InnerException)
        {
            switch (cause)
            {
                case BrokerRefusedException:
                    return cause.Message;
                case SocketException { SocketErrorCode: SocketError.ConnectionRefused }:
                    return "nothing listens there: check that the broker is started, and Broker:Host and Broker:Port";
                case SocketException { SocketErrorCode: SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain }:
                    return "this name is not known: check Broker:Host and the name service";
                case SocketException { SocketErrorCode: SocketError.HostUnreachable or SocketError.NetworkUnreachable }:
                    return "there is no way to that address: check the network and Broker:Host";
                case AuthenticationException:
                    return $"TLS failed: {cause.Message.ReplaceLineEndings(" ")} Check Broker:Tls, Broker:Port and Broker:CaFile";
                case TimeoutException or OperationCanceledException or MQTTnet.Exceptions.MqttCommunicationTimedOutException:
                    return "no answer in time: check the firewall, Broker:Port, and whether that port speaks MQTT (with or without TLS)";
            }
        }

        return failure.GetBaseException().Message.ReplaceLineEndings(" ");
    }

    /// <summary>What a refusal of the broker means.</summary>
    internal static string Explain(MqttClientConnectResult result) => result.ResultCode switch
    {
        MqttClientConnectResultCode.BadUserNameOrPassword or MqttClientConnectResultCode.NotAuthorized =>
            "the broker does not accept these credentials: check Broker:Username and Broker:PasswordFile",
        MqttClientConnectResultCode.ClientIdentifierNotValid => "the broker does not accept this client id: check Broker:ClientId",
        MqttClientConnectResultCode.UnsupportedProtocolVersion => "the broker does not speak MQTT 5.0: a broker that does is needed",
        var code => $"the broker refused the connection: {code} {result.ReasonString}".TrimEnd(),
    };

    /// <summary>Why a connection ended.</summary>
    internal static string Explain(MqttClientDisconnectedEventArgs ended, string clientId) => ended.Reason switch
    {
        MqttClientDisconnectReason.SessionTakenOver =>
            $"another client took the client id \"{clientId}\": two workers with the same Broker:ClientId take turns in throwing each other out",
        MqttClientDisconnectReason.ServerShuttingDown => "the broker was shut down",
        MqttClientDisconnectReason.PacketTooLarge => "a packet was larger than the broker allows",
        MqttClientDisconnectReason.NotAuthorized => "the broker withdrew the permission: check its access list",
        _ when ended.Exception is { } failure => Explain(failure),
        MqttClientDisconnectReason.NormalDisconnection =>
            $"the broker closed the connection without a reason: it was stopped, or another client took the client id \"{clientId}\" "
            + "(two workers with the same Broker:ClientId throw each other out)",
        var reason => $"the connection ended: {reason} {ended.ReasonString}".TrimEnd(),
    };
}

/// <summary>The broker refused us, or ended the connection at once; the message says why and what to check.</summary>
public sealed class BrokerRefusedException(string message) : Exception(message);
