using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Reads the alerts of the last 30 days back from the ledger before the cell starts, so that a restart does not begin the month anew.</summary>
internal sealed class AlarmBookFiller(AlarmBook book, ILedgerStore ledger, WorkerPlan plan, ILogger<AlarmBookFiller> logger) : IHostedService
{
    private const int MostLines = 10_000;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    public async Task StartAsync(CancellationToken cancellationToken)
    {
        try
        {
            var now = plan.CellTime.GetUtcNow();
            var alerts = await ledger.NewestAsync(LedgerLines.AlertKind, null, MostLines, cancellationToken).AsTask().WaitAsync(Patience, cancellationToken);
            var outlooks = await ledger.NewestAsync(LedgerLines.OutlookKind, null, MostLines, cancellationToken).AsTask().WaitAsync(Patience, cancellationToken);
            var recent = alerts.Concat(outlooks).Select(entry => entry.Line).Where(line => line.Time <= now && now - line.Time <= AlarmLimits.LeastEvidence).OrderBy(line => line.Time).ToArray();
            if (recent.Length > 0)
            {
                book.Fill(recent[0].Time, recent.Select(Read));
            }
        }
        catch (Exception failure) when (failure is IOException or TimeoutException or JsonException or KeyNotFoundException or InvalidOperationException)
        {
            logger.LogWarning("The alerts of the last 30 days could not be read from the ledger ({Reason}); the alarm figures begin now.", failure.Message);
        }
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    private static (AlertRaised? Alert, (string Machine, string Part)? Held) Read(LedgerLine line)
    {
        using var json = JsonDocument.Parse(line.Json);
        var fields = json.RootElement;
        if (line.Kind == LedgerLines.OutlookKind)
        {
            return (null, (Text(fields, "machine"), Text(fields, "part")));
        }

        var machine = fields.GetProperty("machine").GetString();
        return (
            new AlertRaised(line.Time, new Alert(
                Text(fields, "id"), machine, Text(fields, "cause"), Text(fields, "text"), Text(fields, "action"), fields.GetProperty("cleared").GetBoolean())),
            null);
    }

    private static string Text(JsonElement fields, string name) => fields.GetProperty(name).GetString() ?? "";
}
