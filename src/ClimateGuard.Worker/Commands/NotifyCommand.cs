using System.CommandLine;
using System.Text.Json;
using ClimateGuard.Edges.Mail;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Edges.Webhook;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Settings;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard notify test</c>: one clearly marked message through each channel to people.</summary>
internal static class NotifyCommand
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private static readonly Option<string> Channel = new("--channel")
    {
        Description = "mail, webhook or all.", HelpName = "CHANNEL", DefaultValueFactory = _ => "all",
    };

    public static Command Create()
    {
        var test = new Command("test", "Sends one message, marked as a test, and says for each channel what happened.\n\n"
            + "Example: climateguard notify test --channel mail") { Channel, CommandLine.SettingsFile };
        test.SetAction((parsed, cancellation) => TestAsync(
            parsed.GetValue(Channel)!, parsed.GetValue(CommandLine.SettingsFile), parsed.GetValue(CommandLine.Json), cancellation));
        return new Command("notify", "The messages to people: mail and webhook.\n\nExample: climateguard notify test") { test };
    }

    private static async Task<int> TestAsync(string wish, string? settingsFile, bool json, CancellationToken cancellation)
    {
        var settings = WorkerSettings.Read(settingsFile).Notices;
        string[] problems = wish is "mail" or "webhook" or "all"
            ? [.. settings.Problems(), .. NotSetUp(wish, settings)]
            : [$"--channel {wish}: mail, webhook or all is allowed."];
        foreach (var problem in problems)
        {
            await Console.Error.WriteLineAsync($"climateguard notify test: {problem}");
        }

        return problems.Length > 0 ? CommandLine.BadInput : await SendAsync(wish, settings, json, cancellation);
    }

    private static IEnumerable<string> NotSetUp(string wish, NoticeSettings settings) => (wish, settings.Mail.IsUsed, settings.Webhook.IsUsed) switch
    {
        ("mail", false, _) => ["mail is not set up: Mail:Host, Mail:From and Mail:To are needed in the settings."],
        ("webhook", _, false) => ["the webhook is not set up: Webhook:Url and Webhook:SecretFile are needed in the settings."],
        ("all", false, false) => ["no channel is set up: Mail:Host or Webhook:Url is needed in the settings."],
        _ => [],
    };

    private static async Task<int> SendAsync(string wish, NoticeSettings settings, bool json, CancellationToken cancellation)
    {
        var now = DateTimeOffset.UtcNow;
        var notice = TestNotice.Of($"test.{now.UtcDateTime:yyyyMMdd'T'HHmmssfff'Z'}.{Guid.NewGuid():N}", Environment.MachineName, now);
        using var webhook = new WebhookSender(settings.Webhook, TimeProvider.System);
        var outcomes = new List<Outcome>();
        if (wish is "mail" or "all" && settings.Mail.IsUsed)
        {
            var mail = new MailSender(settings.Mail, NullLogger.Instance);
            outcomes.Add(await TryAsync(
                "mail", $"{settings.Mail.Host}:{settings.Mail.Port} took it for {string.Join(", ", settings.Mail.To)}", notice, mail.SendAsync, cancellation));
        }

        if (wish is "webhook" or "all" && settings.Webhook.IsUsed)
        {
            outcomes.Add(await TryAsync("webhook", $"{settings.Webhook.Shown} took it", notice, webhook.SendAsync, cancellation));
        }

        foreach (var outcome in outcomes)
        {
            await (outcome.Sent && !json ? Console.Out : Console.Error).WriteLineAsync($"{outcome.Channel}: {outcome.Message}");
        }

        if (json)
        {
            await Console.Out.WriteLineAsync(JsonSerializer.Serialize(new { key = notice.Key, channels = outcomes }, JsonSerializerOptions.Web));
        }

        return outcomes.TrueForAll(outcome => outcome.Sent) ? CommandLine.Done : CommandLine.Failed;
    }

    private static async Task<Outcome> TryAsync(
        string channel, string success, Notice notice, Func<Notice, CancellationToken, Task> send, CancellationToken cancellation)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        patience.CancelAfter(Patience);
        try
        {
            await send(notice, patience.Token);
            return new(channel, true, $"{success}.");
        }
        catch (DeliveryFailedException failed)
        {
            return new(channel, false, failed.Message);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            return new(channel, false, $"there was no answer within {Words.Minutes(Patience)}.");
        }
    }

    private sealed record Outcome(string Channel, bool Sent, string Message);
}
