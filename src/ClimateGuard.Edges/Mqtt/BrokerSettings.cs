using System.Text;
using Microsoft.Extensions.Configuration;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>How to reach the broker: the section <c>Broker</c> of the settings.</summary>
/// <remarks>Its text form leaves the password out, so that no log line can hold it.</remarks>
public sealed record BrokerSettings
{
    /// <summary>The name of the section.</summary>
    public const string Section = "Broker";

    /// <summary>Send nothing that a machine might take for itself: only what people read. Set by the mode of the worker, not in this section.</summary>
    public bool ToPeopleOnly { get; init; }

    /// <summary>Name or address of the broker.</summary>
    public string Host { get; init; } = "127.0.0.1";

    /// <summary>Its port, in [1, 65 535].</summary>
    public int Port { get; init; } = 1883;

    /// <summary>The client id, or empty for <c>climateguard-{cell}</c>. The broker keeps what is not acknowledged under this name.</summary>
    public string ClientId { get; init; } = "";

    /// <summary>User name, or null.</summary>
    public string? Username { get; init; }

    /// <summary>Password, or null; a file is better.</summary>
    public string? Password { get; init; }

    /// <summary>A file whose first line is the password, or null.</summary>
    public string? PasswordFile { get; init; }

    /// <summary>Whether to speak TLS.</summary>
    public bool Tls { get; init; }

    /// <summary>PEM file with the certificates to trust, or null for those of the system.</summary>
    public string? CaFile { get; init; }

    /// <summary>Our own certificate: a PFX file, or a PEM file that holds certificate and key; null for none.</summary>
    public string? ClientCertificate { get; init; }

    /// <summary>PEM file with the key of <see cref="ClientCertificate"/>, or null when that file holds it.</summary>
    public string? ClientKey { get; init; }

    /// <summary>How long the broker keeps our session and what we have not acknowledged, in [0, 604 800] s.</summary>
    public int SessionExpirySeconds { get; init; } = 3600;

    /// <summary>
    /// How many QoS 1 messages may be under way to us without acknowledgement, in [1, 65 535]. Not less than a batch of the store:
    /// below it a batch never fills and its time limit sets the pace.
    /// </summary>
    public int ReceiveMaximum { get; init; } = 8192;

    /// <summary>Where readings come from, such as <c>cg/{cell}/reading/{sensor}</c> (the default when empty).</summary>
    public IReadOnlyList<string> ReadingFilters { get; init; } = [];

    /// <summary>Reads the section <c>Broker</c>.</summary>
    /// <exception cref="InvalidOperationException">A value has the wrong kind, such as text for a port; the message names it.</exception>
    public static BrokerSettings From(IConfiguration configuration)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        try
        {
            return configuration.GetSection(Section).Get<BrokerSettings>() ?? new BrokerSettings();
        }
        catch (InvalidOperationException wrong)
        {
            throw new InvalidOperationException($"settings, section {Section}: {wrong.Message} {wrong.InnerException?.Message}".TrimEnd(), wrong);
        }
    }

    /// <summary>The client id to use.</summary>
    public string ClientIdFor(string cell) => ClientId.Length > 0 ? ClientId : $"climateguard-{cell}";

    /// <summary>Everything that is wrong with these settings, each as one sentence with what is allowed; empty when they can be used.</summary>
    public IReadOnlyList<string> Problems() =>
        [.. Numbers().Concat(Secrets()).Concat(Certificates()).Concat(Filters())];

    /// <summary>The password, from its setting or its file; null when there is none.</summary>
    /// <exception cref="IOException">The file cannot be read.</exception>
    internal string? ReadPassword() => PasswordFile is { Length: > 0 } file
        ? File.ReadLines(file, Encoding.UTF8).FirstOrDefault()?.TrimEnd('\r') ?? ""
        : Password;

    private static string At(string key) => $"{Section}:{key}";

    private static IEnumerable<string> FileProblem(string key, string? path, string what)
    {
        if (path is not { Length: > 0 })
        {
            yield break;
        }

        string? problem = null;
        try
        {
            using var stream = File.OpenRead(path);
            problem = stream.Length == 0 ? "is empty" : null;
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            problem = File.Exists(path) ? "cannot be read by this user" : "does not exist";
        }

        if (problem is not null)
        {
            yield return $"{At(key)} is \"{path}\", which {problem}; the path of {what} is needed";
        }
    }

    private IEnumerable<string> Numbers()
    {
        if (string.IsNullOrWhiteSpace(Host))
        {
            yield return $"{At("Host")} is empty; the name or address of the broker is needed, such as 127.0.0.1";
        }

        if (Port is < 1 or > 65_535)
        {
            yield return $"{At("Port")} is {Port}; 1 to 65535 is allowed, 1883 without and 8883 with TLS are usual";
        }

        if (SessionExpirySeconds is < 0 or > 604_800)
        {
            yield return $"{At("SessionExpirySeconds")} is {SessionExpirySeconds}; 0 to 604800 (a week) is allowed";
        }

        if (ReceiveMaximum is < 1 or > 65_535)
        {
            yield return $"{At("ReceiveMaximum")} is {ReceiveMaximum}; 1 to 65535 is allowed";
        }

        if (ClientId.Length > 200 || ClientId.Any(letter => char.IsControl(letter)))
        {
            yield return $"{At("ClientId")} has {ClientId.Length} characters or control characters; at most 200 plain characters are allowed";
        }
    }

    private IEnumerable<string> Secrets()
    {
        if (Password is { Length: > 0 } && PasswordFile is { Length: > 0 })
        {
            yield return $"{At("Password")} and {At("PasswordFile")} are both set; one of them is allowed";
        }

        if (Username is null or "" && (Password is { Length: > 0 } || PasswordFile is { Length: > 0 }))
        {
            yield return $"{At("Username")} is missing although a password is set; brokers judge a password with its user";
        }

        foreach (var problem in FileProblem("PasswordFile", PasswordFile, "a file whose first line is the password"))
        {
            yield return problem;
        }
    }

    private IEnumerable<string> Certificates()
    {
        if (!Tls && (CaFile is { Length: > 0 } || ClientCertificate is { Length: > 0 }))
        {
            yield return $"{At("Tls")} is false although a certificate is named; set it to true, or the connection is not encrypted";
        }

        if (ClientKey is { Length: > 0 } && ClientCertificate is null or "")
        {
            yield return $"{At("ClientKey")} is set without {At("ClientCertificate")}; both are needed";
        }

        string[] unreadable =
        [
            .. FileProblem("CaFile", CaFile, "a PEM file with the certificates to trust"),
            .. FileProblem("ClientCertificate", ClientCertificate, "a PFX or PEM file"),
            .. FileProblem("ClientKey", ClientKey, "a PEM file with the key"),
        ];
        foreach (var problem in unreadable.Length > 0 ? unreadable : BrokerCertificates.Problems(this))
        {
            yield return problem;
        }
    }

    private IEnumerable<string> Filters()
    {
        for (var i = 0; i < ReadingFilters.Count; i++)
        {
            var filter = ReadingFilters[i];
            var levels = (filter ?? "").Split('/');
            var wrongHash = levels.SkipLast(1).Any(level => level.Contains('#')) || (levels[^1].Contains('#') && levels[^1] != "#");
            if (string.IsNullOrWhiteSpace(filter) || wrongHash || levels.Any(level => level.Contains('+') && level != "+"))
            {
                yield return $"{At($"ReadingFilters:{i}")} is \"{filter}\"; a pattern such as {Topics.DefaultReadingFilter} is allowed, "
                    + "+ as a whole level, # as the whole last level";
            }
        }
    }

    private bool PrintMembers(StringBuilder builder)
    {
        builder.Append(System.Globalization.CultureInfo.InvariantCulture, $"Host = {Host}, Port = {Port}, Tls = {Tls}, Username = {Username}");
        return true;
    }
}
