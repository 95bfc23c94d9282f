using System.Net;
using ClimateGuard.Edges.Notices;
using MimeKit;

namespace ClimateGuard.Edges.Mail;

/// <summary>How to send mail: the section <c>Mail</c> of the settings. Without a host no mail is sent.</summary>
public sealed record MailSettings
{
    /// <summary>The name of the section.</summary>
    public const string Section = "Mail";

    /// <summary>Name or address of the mail server; empty for no mail.</summary>
    public string Host { get; init; } = "";

    /// <summary>Its port, in [1, 65 535]; 587 with STARTTLS, 465 with TLS, 25 for a relay are usual.</summary>
    public int Port { get; init; } = 587;

    /// <summary><c>startTls</c> (required, not only tried), <c>tls</c> from the first byte, or <c>none</c> for a relay that needs no password.</summary>
    public string Security { get; init; } = "startTls";

    /// <summary>User name, or null for a relay without accounts.</summary>
    public string? Username { get; init; }

    /// <summary>A file whose first line is the password, or null.</summary>
    public string? PasswordFile { get; init; }

    /// <summary>The sender, such as <c>ClimateGuard &lt;climateguard@example.org&gt;</c>.</summary>
    public string From { get; init; } = "";

    /// <summary>The receivers.</summary>
    public IReadOnlyList<string> To { get; init; } = [];

    /// <summary>Whether the certificate of the server is looked up in lists of revoked ones; false where those cannot be reached.</summary>
    public bool CheckRevocation { get; init; } = true;

    /// <summary>Whether the quiet hours hold for mail.</summary>
    public bool QuietHours { get; init; } = true;

    /// <summary>Whether mail is sent at all.</summary>
    public bool IsUsed => Host.Length > 0;

    /// <summary>Everything that is wrong with these settings, each as one sentence with what is allowed; empty when they can be used.</summary>
    public IReadOnlyList<string> Problems() => IsUsed ? [.. Server(), .. Account(), .. Addresses()] : [];

    /// <summary>The password, or null.</summary>
    /// <exception cref="IOException">The file cannot be read.</exception>
    internal string? ReadPassword() => PasswordFile is { Length: > 0 } file ? SettingsFiles.FirstLine(file) : null;

    private IEnumerable<string> Server()
    {
        if (Port is < 1 or > 65_535)
        {
            yield return $"{Section}:Port is {Port}; 1 to 65535 is allowed, 587 with startTls, 465 with tls and 25 with none are usual";
        }

        if (Security is not ("startTls" or "tls" or "none"))
        {
            yield return $"{Section}:Security is \"{Security}\"; startTls, tls or none is allowed";
        }
    }

    private IEnumerable<string> Account()
    {
        var loopback = Host == "localhost" || (IPAddress.TryParse(Host, out var address) && IPAddress.IsLoopback(address));
        if (Security == "none" && Username is { Length: > 0 } && !loopback)
        {
            yield return $"{Section}:Security is none, so the password of {Username} would cross the network in the clear; startTls or tls is needed with a user";
        }

        if ((Username is { Length: > 0 }) != (PasswordFile is { Length: > 0 }))
        {
            yield return $"{Section}:Username and {Section}:PasswordFile belong together; one of them is missing";
        }

        if (PasswordFile is { Length: > 0 } file && SettingsFiles.Problem($"{Section}:PasswordFile", file, "a file whose first line is the password", 1) is { } problem)
        {
            yield return problem;
        }
    }

    private IEnumerable<string> Addresses()
    {
        if (!IsAddress(From))
        {
            yield return $"{Section}:From is \"{From}\"; an address such as climateguard@example.org is needed";
        }

        if (To.Count == 0)
        {
            yield return $"{Section}:To is empty although {Section}:Host is set; at least one address is needed, such as [\"shift@example.org\"]";
        }

        foreach (var (address, index) in To.Select((address, index) => (address, index)))
        {
            if (!IsAddress(address))
            {
                yield return $"{Section}:To:{index} is \"{address}\"; an address such as shift@example.org is needed";
            }
        }
    }

    private static bool IsAddress(string? text) =>
        text is { Length: > 0 } && MailboxAddress.TryParse(text, out var address) && address.Address.IndexOf('@', StringComparison.Ordinal) > 0;
}
