using ClimateGuard.Edges.Notices;

namespace ClimateGuard.Edges.Webhook;

/// <summary>Where to post notices: the section <c>Webhook</c> of the settings. Without a URL nothing is posted.</summary>
public sealed record WebhookSettings
{
    /// <summary>The name of the section.</summary>
    public const string Section = "Webhook";

    private const int LeastSecretBytes = 16;

    /// <summary>The address; https, or http on this computer; empty for none.</summary>
    public string Url { get; init; } = "";

    /// <summary>A file whose first line, at least 16 bytes, is the secret shared with the receiver.</summary>
    public string SecretFile { get; init; } = "";

    /// <summary>Whether the quiet hours hold for the webhook.</summary>
    public bool QuietHours { get; init; } = true;

    /// <summary>Whether anything is posted.</summary>
    public bool IsUsed => Url.Length > 0;

    /// <summary>The address as it may stand in messages: without query, which may hold a token.</summary>
    public string Shown => Uri.TryCreate(Url, UriKind.Absolute, out var address) ? address.GetLeftPart(UriPartial.Path) : "the webhook";

    /// <summary>Everything that is wrong with these settings, each as one sentence with what is allowed; empty when they can be used.</summary>
    public IReadOnlyList<string> Problems()
    {
        if (!IsUsed)
        {
            return [];
        }

        var problems = new List<string>();
        if (!Uri.TryCreate(Url, UriKind.Absolute, out var address) || !(address.Scheme == "https" || (address.Scheme == "http" && address.IsLoopback)))
        {
            problems.Add($"{Section}:Url is \"{Shown}\"; https://… is allowed, and http://… on this computer only, as the message would cross the network in the clear");
        }
        else if (address.UserInfo.Length > 0)
        {
            problems.Add($"{Section}:Url holds a user or password; they are not sent, the signature says who we are. Take them out");
        }

        problems.AddRange(SecretFile.Length == 0
            ? [$"{Section}:SecretFile is empty although {Section}:Url is set; a file whose first line is the secret shared with the receiver is needed"]
            : SettingsFiles.Problem($"{Section}:SecretFile", SecretFile, "a file whose first line is the secret", LeastSecretBytes) is { } problem ? [problem] : []);
        return problems;
    }
}
