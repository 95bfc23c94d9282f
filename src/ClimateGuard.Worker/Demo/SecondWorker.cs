using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Demo;

/// <summary>
/// The test instance that somebody left on: for twenty minutes of the story it asks for the lease of the cell once a second, as a second worker
/// on the same folder does, and is refused. It has a connection of its own and an invented name; a second process would do the same.
/// </summary>
internal sealed class SecondWorker(DemoDesk desk, SqliteLedger ledger, FastClock clock) : BackgroundService
{
    /// <summary>The incident of the story at which it begins.</summary>
    private const string Incident = "I11";

    private static readonly LeaseOwner Name = new("test-instance (invented)", 4711);
    private static readonly TimeSpan LeftOn = TimeSpan.FromMinutes(20);
    private static readonly TimeSpan Term = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!desk.Told.Any(told => told.Code == Incident)) await Task.Delay(Pause, stoppingToken);
        var until = clock.GetUtcNow() + LeftOn;
        using var lease = ledger.OpenLease(TimeProvider.System);
        do
        {
            Ask(lease);
            await Task.Delay(Pause, stoppingToken);
        }
        while (clock.GetUtcNow() < until);
    }

    private void Ask(SqliteLease lease)
    {
        try
        {
            var answer = lease.TryAcquire(Name, Term, DateTimeOffset.UtcNow);
            if (answer.Token is { } given)
            {
                // Only when the worker of the demo had fallen silent; a test instance must not decide then either.
                lease.Release(given);
                return;
            }

            if (desk.SecondWorker is null) lease.NoteRefusal(Name, DateTimeOffset.UtcNow);
            desk.SecondWorker = $"The test instance asked for the lease of the cell and was refused: {answer.Holder} decides. The ledger says so.";
        }
        catch (StoreUnavailableException unavailable)
        {
            desk.SecondWorker = $"The test instance could not ask for the lease: {unavailable.Message}";
        }
    }
}
