using System.Security.Cryptography.X509Certificates;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Turns the settings into the options of the MQTT client.</summary>
internal static class BrokerOptions
{
    /// <summary>
    /// The largest packet the broker may send us; larger ones it does not send at all (MQTT 5.0, 3.1.2.11.4). Twice the largest
    /// payload we read, so that a payload just too large still arrives, is refused by its size and counted.
    /// </summary>
    internal const uint MostPacketBytes = 2 * ReadingDecoder.MostBytes;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan KeepAlive = TimeSpan.FromSeconds(15);

    /// <summary>The options of one connection.</summary>
    /// <param name="settings">The settings.</param>
    /// <param name="clientId">The client id.</param>
    /// <param name="willTopic">Where the broker tells that we died.</param>
    /// <param name="will">What it tells.</param>
    /// <param name="time">Judges the certificate of the broker.</param>
    /// <param name="refused">Takes the reason why the certificate of the broker is refused.</param>
    /// <exception cref="IOException">A file cannot be read.</exception>
    internal static MqttClientOptions Build(
        BrokerSettings settings, string clientId, string willTopic, byte[] will, TimeProvider time, Action<string> refused)
    {
        // A session that outlives the connection is what brings unacknowledged messages back [MQTT-4.4.0-1].
        var builder = new MqttClientOptionsBuilder()
            .WithProtocolVersion(MqttProtocolVersion.V500)
            .WithTcpServer(settings.Host, settings.Port)
            .WithClientId(clientId)
            .WithCleanStart(false)
            .WithSessionExpiryInterval((uint)settings.SessionExpirySeconds)
            .WithReceiveMaximum((ushort)settings.ReceiveMaximum)
            .WithMaximumPacketSize(MostPacketBytes)
            .WithKeepAlivePeriod(KeepAlive)
            .WithTimeout(Patience)
            .WithWillTopic(willTopic)
            .WithWillPayload(will)
            .WithWillRetain(true)
            .WithWillQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce);
        if (settings.Username is { Length: > 0 } user)
        {
            builder.WithCredentials(user, settings.ReadPassword());
        }

        return settings.Tls ? builder.WithTlsOptions(tls => AddTls(tls, settings, time, refused)).Build() : builder.Build();
    }

    private static void AddTls(MqttClientTlsOptionsBuilder tls, BrokerSettings settings, TimeProvider time, Action<string> refused)
    {
        var authorities = BrokerCertificates.Authorities(settings);
        tls.UseTls(true).WithTargetHost(settings.Host).WithCertificateValidationHandler(presented =>
        {
            using var certificate = X509CertificateLoader.LoadCertificate(presented.Certificate.GetRawCertData());
            var refusal = BrokerCertificates.Refusal(
                certificate, presented.Chain, presented.SslPolicyErrors, authorities, time.GetUtcNow().LocalDateTime);
            if (refusal is not null)
            {
                refused(refusal);
            }

            return refusal is null;
        });
        if (BrokerCertificates.Own(settings) is { } own)
        {
            tls.WithClientCertificates(new X509Certificate2Collection(own));
        }
    }
}
