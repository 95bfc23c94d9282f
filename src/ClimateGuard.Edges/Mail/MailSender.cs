using System.Net.Sockets;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Watch;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using Microsoft.Extensions.Logging;
using MimeKit;

namespace ClimateGuard.Edges.Mail;

/// <summary>Sends notices as mail, each over a connection of its own: they are few, and a connection kept for hours is one that is dead when needed.</summary>
/// <param name="settings">Settings without problems.</param>
/// <param name="logger">Told of receivers that were refused while others were not.</param>
public sealed class MailSender(MailSettings settings, ILogger logger)
{
    /// <summary>Sends one notice; when it returns the server has taken it.</summary>
    /// <param name="notice">The notice.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="DeliveryFailedException">The server did not take it; the message says why.</exception>
    public async Task SendAsync(Notice notice, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(notice);
        using var message = MailMessages.Of(notice, settings);
        using var client = new Client { CheckCertificateRevocation = settings.CheckRevocation };
        try
        {
            await client.ConnectAsync(settings.Host, settings.Port, Security(), cancellation);
            if (settings.Username is { Length: > 0 } user)
            {
                await client.AuthenticateAsync(user, settings.ReadPassword() ?? "", cancellation);
            }

            await client.SendAsync(message, cancellation);
        }
        catch (Exception failure) when (failure is not OperationCanceledException and not DeliveryFailedException)
        {
            throw Explained(failure);
        }

        foreach (var (address, answer) in client.Refused)
        {
            logger.LogWarning("mail: {Server} refused the receiver {Address}: {Answer} The others have message {Key}.", Server, address, answer, notice.Key);
        }

        await GoodbyeAsync(client, cancellation);
    }

    private string Server => $"{settings.Host}:{settings.Port}";

    /// <summary>A server that hangs up instead of answering the goodbye has the message all the same: sending it again would be wrong.</summary>
    private static async Task GoodbyeAsync(Client client, CancellationToken cancellation)
    {
        try
        {
            await client.DisconnectAsync(quit: true, cancellation);
        }
        catch (Exception rude) when (rude is IOException or ProtocolException or CommandException or SocketException)
        {
            return;
        }
    }

    private SecureSocketOptions Security() => settings.Security switch
    {
        "tls" => SecureSocketOptions.SslOnConnect,
        "none" => SecureSocketOptions.None,
        _ => SecureSocketOptions.StartTls,
    };

    private DeliveryFailedException Explained(Exception failure) => failure switch
    {
        ServiceNotAuthenticatedException => new($"{Server} wants us to log in: set Mail:Username and Mail:PasswordFile. {failure.Message}", failure),
        AuthenticationException => new($"{Server} refuses user {settings.Username}: check Mail:Username and Mail:PasswordFile.", failure),
        SslHandshakeException => new(
            $"{Server} and we do not agree on TLS: check Mail:Security, the certificate of the server and the clock of this computer. {failure.Message.Split('\n')[0]}", failure),
        NotSupportedException => new($"{Server} offers no {settings.Security}: check Mail:Security and Mail:Port. {failure.Message}", failure),
        SocketException socket => new($"{Server} cannot be reached ({socket.SocketErrorCode}): check Mail:Host, Mail:Port and the network.", failure),
        SmtpCommandException command => new($"{Server} answers {(int)command.StatusCode}: {command.Message}", failure)
        {
            // 5xx to the message itself is final (RFC 5321, 4.2.1); to anything before it the settings may be at fault.
            ForGood = command.ErrorCode == SmtpErrorCode.MessageNotAccepted && (int)command.StatusCode >= 500,
        },
        _ => new($"{Server}: {failure.Message}", failure),
    };

    /// <summary>One receiver that is refused must not keep the message from the others.</summary>
    private sealed class Client : SmtpClient
    {
        public List<(string Address, string Answer)> Refused { get; } = [];

        protected override void OnRecipientNotAccepted(MimeMessage message, MailboxAddress mailbox, SmtpResponse response) =>
            Refused.Add((mailbox.Address, $"{(int)response.StatusCode} {response.Response}"));

        protected override void OnNoRecipientsAccepted(MimeMessage message)
        {
            var answers = string.Join("; ", Refused.Select(refused => $"{refused.Address}: {refused.Answer}"));
            throw new DeliveryFailedException($"No receiver was accepted: {answers}. Check Mail:To.")
            {
                // 4xx means later, as in greylisting (RFC 5321, 4.2.1).
                ForGood = Refused.TrueForAll(refused => refused.Answer.StartsWith('5')),
            };
        }
    }
}
