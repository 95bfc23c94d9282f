using ClimateGuard.Edges.Notices;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /alarms/figures</c>: how our own alarms stand against published figures. <c>GET /alarms/channels</c>: whether people are reached.</summary>
internal static class AlarmFiguresApi
{
    private const int DeadLettersShown = 100;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/alarms/figures", (AlarmBook book, WorkerPlan plan) => Of(book.At(plan.CellTime.GetUtcNow())))
            .WithSummary("Figures about our own alarms beside those of ISA-18.2 and IEC 62682.");
        api.MapGet("/alarms/channels", (IServiceProvider services) =>
            services.GetServices<NoticeChannel>().Select(channel => Of(channel.Health(), services.GetRequiredService<SqliteOutbox>())))
            .WithSummary("Mail and webhook: whether they get through, what waits, what was given up and why.");
    }

    private static FiguresItem Of(AlarmFiguresReport report) => new(
        report.Time, report.Since, report.EnoughEvidence, report.Alarms, report.Standing, report.InTenMinutes, report.InAnHour, report.InThisShift,
        new FloodItem(report.InFlood, report.Floods, report.FloodShare), report.Stale, report.Chattering, report.TopCauses, report.Priorities,
        report.Figures.Select(figure => new FigureItem(
            figure.Name, figure.Value, figure.Unit, figure.Acceptable, figure.Manageable, JsonWord.Of(figure.Standing.ToString()), figure.Source)));

    private static ChannelItem Of(ChannelHealth health, SqliteOutbox outbox) => new(
        health.Channel, health.Healthy ? "ok" : "failing", health.FailingSince, health.LastError, health.Delivered, health.Waiting, health.OldestWaiting,
        health.Lost, health.DeadLetters,
        outbox.DeadLetters(health.Channel, DeadLettersShown).Select(item => new DeadLetter(
            item.Key, item.Made, item.Attempts, item.Error, NoticeJson.NoticeFrom(item.Json).Subject)));

    /// <summary>The figures; shares are 0 to 1.</summary>
    internal sealed record FiguresItem(
        DateTimeOffset Time, DateTimeOffset Since, bool EnoughEvidence, long Alarms, int Standing, long InTenMinutes, long InAnHour, long? InThisShift,
        FloodItem Flood, IReadOnlyList<string> Stale, IReadOnlyList<AlarmCause> Chattering, IReadOnlyList<AlarmCause> TopCauses, PriorityShares Priorities,
        IEnumerable<FigureItem> Figures);

    /// <summary>Floods: more than 10 alarms in 10 min until fewer than 5.</summary>
    internal sealed record FloodItem(bool Now, int Count, double ShareOfTime);

    /// <summary>One figure; <c>standing</c> is acceptable, manageable, tooMany or notJudged.</summary>
    internal sealed record FigureItem(string Name, double Value, string Unit, double? Acceptable, double? Manageable, string Standing, string Source);

    /// <summary>One channel; <c>state</c> is ok or failing.</summary>
    internal sealed record ChannelItem(
        string Channel, string State, DateTimeOffset? FailingSince, string? LastError, long Delivered, long Waiting, DateTimeOffset? OldestWaiting, long Lost,
        long GivenUp, IEnumerable<DeadLetter> DeadLetters);

    /// <summary>A message that was given up.</summary>
    internal sealed record DeadLetter(string Key, DateTimeOffset Made, int Attempts, string? Error, string Subject);
}
