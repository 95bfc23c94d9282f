using ClimateGuard.Edges.Mail;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Edges.Webhook;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Puts together who is told besides the broker: mail, webhook, and the figures about our own alarms.</summary>
internal static class TellingSetup
{
    public static void AddTelling(this IServiceCollection services, WorkerPlan plan)
    {
        services.AddSingleton(_ => new AlarmBook(plan.Cell, plan.CellTime.GetUtcNow()));
        services.AddSingleton<IAlertChannel>(provider => provider.GetRequiredService<AlarmBook>());
        services.AddHostedService<AlarmBookFiller>();
        services.AddSingleton<AlarmTelling>();
        services.AddHostedService<HistoryUpkeep>();
        if (!plan.Notices.Mail.IsUsed && !plan.Notices.Webhook.IsUsed)
        {
            return;
        }

        services.AddSingleton(provider => SqliteOutbox.Open(
            new SqliteStorage { Folder = plan.StorageFolder }, TimeProvider.System, provider.GetRequiredService<ILogger<SqliteOutbox>>()));
        if (plan.Notices.Mail is { IsUsed: true } mail)
        {
            Add(services, plan, "mail", mail.QuietHours, provider => new MailSender(mail, provider.GetRequiredService<ILogger<MailSender>>()).SendAsync);
        }

        if (plan.Notices.Webhook is { IsUsed: true } webhook)
        {
            services.AddSingleton(_ => new WebhookSender(webhook, TimeProvider.System));
            Add(services, plan, "webhook", webhook.QuietHours, provider => provider.GetRequiredService<WebhookSender>().SendAsync);
        }

        services.AddHostedService<NoticePump>();
    }

    private static void Add(
        IServiceCollection services, WorkerPlan plan, string name, bool quiet, Func<IServiceProvider, Func<Notice, CancellationToken, Task>> send)
    {
        services.AddKeyedSingleton(name, (provider, _) => new NoticeChannel(new NoticeChannelParts
        {
            Name = name,
            Policy = new NoticePolicy(plan.Notices.Rules(plan.Cell, quiet)),
            Priorities = new AlertPriorities(plan.Cell),
            Outbox = provider.GetRequiredService<SqliteOutbox>(),
            Send = send(provider),
            Delivery = plan.Notices.Delivery(),
            CellTime = plan.CellTime,
            WallTime = TimeProvider.System,
            // Only the jitter of pauses hangs on it; two workers that start at once should not knock in step.
            Chance = new Random(),
            Logger = provider.GetRequiredService<ILogger<NoticeChannel>>(),
        }));
        services.AddSingleton(provider => provider.GetRequiredKeyedService<NoticeChannel>(name));
        services.AddSingleton<IAlertChannel>(provider => provider.GetRequiredKeyedService<NoticeChannel>(name));
    }
}
