using System.Globalization;
using ClimateGuard.Edges.Mail;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Edges.Webhook;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Settings;

/// <summary>Who is told, and when: the sections <c>Notices</c>, <c>Mail</c> and <c>Webhook</c> of the settings.</summary>
public sealed record NoticeSettings
{
    public const string Section = "Notices";

    public MailSettings Mail { get; init; } = new();

    public WebhookSettings Webhook { get; init; } = new();

    /// <summary>Begin and end of the quiet hours, local time of the cell, such as 22:00; both empty for none.</summary>
    public QuietSettings QuietHours { get; init; } = new();

    /// <summary>The most messages in any hour, in [1, 1 000].</summary>
    public int MostPerHour { get; init; } = 12;

    /// <summary>The age at which a message that cannot be delivered is given up, in [1, 720] h.</summary>
    public int GiveUpAfterHours { get; init; } = 24;

    public static NoticeSettings From(IConfiguration configuration) => Bound<NoticeSettings>(configuration, Section) with
    {
        Mail = Bound<MailSettings>(configuration, MailSettings.Section),
        Webhook = Bound<WebhookSettings>(configuration, WebhookSettings.Section),
    };

    /// <summary>Everything wrong with the settings, each as one sentence that says how to mend it.</summary>
    public IReadOnlyList<string> Problems() => [.. Own(), .. Mail.Problems(), .. Webhook.Problems()];

    /// <summary>The rules of one channel.</summary>
    /// <param name="cell">The cell, for its time zone.</param>
    /// <param name="quiet">Whether the quiet hours hold for the channel.</param>
    public NoticeRules Rules(Cell cell, bool quiet) => new()
    {
        Cell = cell.Id,
        Zone = TimeZoneInfo.FindSystemTimeZoneById(cell.Description.TimeZone),
        MostPerHour = MostPerHour,
        QuietHours = quiet && TryTime(QuietHours.From, out var from) && TryTime(QuietHours.To, out var to) ? new LocalPeriod(from, to, []) : null,
        QuietLetsThrough = QuietHours.LetThrough == "medium" ? AlertPriority.Medium : AlertPriority.High,
    };

    public DeliveryRules Delivery() => new() { GiveUpAfter = TimeSpan.FromHours(GiveUpAfterHours) };

    internal static T Bound<T>(IConfiguration configuration, string section)
        where T : new()
    {
        try
        {
            return configuration.GetSection(section).Get<T>() ?? new T();
        }
        catch (InvalidOperationException wrong)
        {
            throw new InvalidOperationException($"settings, section {section}: {wrong.Message} {wrong.InnerException?.Message}".TrimEnd(), wrong);
        }
    }

    private static bool TryTime(string text, out TimeOnly time) =>
        TimeOnly.TryParseExact(text, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out time);

    private IEnumerable<string> Own()
    {
        if (MostPerHour is < 1 or > 1000)
        {
            yield return $"{Section}:MostPerHour is {MostPerHour}; 1 to 1000 is allowed, 12 is the most a person can manage";
        }

        if (GiveUpAfterHours is < 1 or > 720)
        {
            yield return $"{Section}:GiveUpAfterHours is {GiveUpAfterHours}; 1 to 720 (30 days) is allowed";
        }

        foreach (var (key, text) in new[] { ("From", QuietHours.From), ("To", QuietHours.To) })
        {
            if (text.Length > 0 && !TryTime(text, out _))
            {
                yield return $"{Section}:QuietHours:{key} is \"{text}\"; a local time such as 22:00 is allowed";
            }
        }

        if (QuietHours.From.Length > 0 != QuietHours.To.Length > 0)
        {
            yield return $"{Section}:QuietHours:From and {Section}:QuietHours:To belong together; one of them is missing";
        }
        else if (QuietHours.From.Length > 0 && QuietHours.From == QuietHours.To)
        {
            yield return $"{Section}:QuietHours begin and end at {QuietHours.From}; two different times are needed";
        }

        if (QuietHours.LetThrough is not ("high" or "medium"))
        {
            yield return $"{Section}:QuietHours:LetThrough is \"{QuietHours.LetThrough}\"; high or medium is allowed";
        }
    }
}

/// <summary>When nobody wants to be woken.</summary>
public sealed record QuietSettings
{
    /// <summary>Begin, local time of the cell, <c>HH:mm</c>; empty for none.</summary>
    public string From { get; init; } = "";

    /// <summary>End, local time of the cell.</summary>
    public string To { get; init; } = "";

    /// <summary>From which priority on it is told all the same: <c>high</c> or <c>medium</c>.</summary>
    public string LetThrough { get; init; } = "high";
}
