using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>This worker's part in the lease of its cell: takes it, says so in the ledger, renews it, and notices when another took over.</summary>
/// <remarks>Real time only, also in the demo: a lease is between processes, and they share the real clock.</remarks>
internal sealed class CellLease : IDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private readonly SqliteLedger file;
    private readonly ILedgerStore ledger;
    private readonly WorkerPlan plan;
    private readonly CellLoop loop;
    private readonly ILogger<CellLease> logger;
    private readonly SqliteLease lease;
    private long token;
    private volatile string? refusal = "This worker has just started and does not decide yet.";

    public CellLease(SqliteLedger file, ILedgerStore ledger, WorkerPlan plan, CellLoop loop, ILogger<CellLease> logger)
    {
        this.file = file;
        this.ledger = ledger;
        this.plan = plan;
        this.loop = loop;
        this.logger = logger;
        lease = file.OpenLease(TimeProvider.System);
    }

    /// <summary>Why this worker decides nothing, for people; null while it holds the lease.</summary>
    public string? Refusal => refusal;

    /// <summary>Whether the row in the ledger says so at this moment, which no pause and no clock can bend.</summary>
    public bool Holds
    {
        get
        {
            try
            {
                return refusal is null && lease.Holder()?.Token == token;
            }
            catch (StoreUnavailableException)
            {
                // A store that cannot be read says nothing about the lease, and what is decided waits for the store anyway.
                return refusal is null;
            }
        }
    }

    /// <summary>Returns when this worker holds the lease and the ledger says so.</summary>
    public async Task AcquireAsync(CancellationToken cancellation)
    {
        while (true)
        {
            try
            {
                var answer = lease.TryAcquire(LeaseOwner.Here, plan.LeaseTerm, DateTimeOffset.UtcNow);
                if (answer.Token is not { } given)
                {
                    StandBy(answer.Holder);
                }
                else if (await BeginAsync(given, answer, cancellation))
                {
                    return;
                }
            }
            catch (StoreUnavailableException unavailable)
            {
                logger.LogError("The lease could not be asked for: {Reason} Trying again", unavailable.Message);
            }

            await Task.Delay(Pause, cancellation);
        }
    }

    /// <summary>Renews every third of the term; returns when another worker took over.</summary>
    public async Task HoldAsync(CancellationToken cancellation)
    {
        while (true)
        {
            await Task.Delay(plan.LeaseTerm / 3, cancellation);
            try
            {
                if (!lease.Renew(token, plan.LeaseTerm, DateTimeOffset.UtcNow))
                {
                    Lose(lease.Holder() is { } holder ? $"{holder} took over." : "it was taken over and given back since.");
                    return;
                }

                await KeepRefusalsAsync(cancellation);
            }
            catch (LeaseLostException)
            {
                // The next renewal says who took over.
            }
            catch (StoreUnavailableException unavailable)
            {
                // Not a loss: the ledger itself refuses to write as soon as another worker took over.
                logger.LogError("The lease could not be renewed: {Reason} Trying again", unavailable.Message);
            }
        }
    }

    /// <summary>Another worker decides now.</summary>
    public void Lose(string reason)
    {
        refusal = $"This worker lost the lease and decides nothing: {reason}";
        logger.LogError("{Refusal} It stops, leaves the broker, and asks for the lease again", refusal);
    }

    /// <summary>Gives the lease back, so that the next worker need not wait for its end.</summary>
    public void Release()
    {
        try
        {
            if (refusal is null && lease.Release(token))
            {
                refusal = "This worker is stopping and decides nothing any more.";
            }
        }
        catch (StoreUnavailableException unavailable)
        {
            logger.LogWarning("The lease was not given back and runs out by itself: {Reason}", unavailable.Message);
        }
    }

    public void Dispose() => lease.Dispose();

    private async Task<bool> BeginAsync(long given, LeaseAnswer answer, CancellationToken cancellation)
    {
        token = given;
        file.WriteWith(given);
        var plant = loop.TakeOverPlant();
        var content = JsonSerializer.Serialize(
            new
            {
                token = given,
                host = answer.Holder.Owner.Host,
                process = answer.Holder.Owner.Process,
                version = Composition.Version,
                configVersion = plant.Version,
                took = answer.Before is { } before ? new { token = before.Token, host = before.Owner.Host, process = before.Owner.Process } : null,
            },
            JsonSerializerOptions.Web);
        try
        {
            await ledger.AppendAsync([new LedgerLine(plan.CellTime.GetUtcNow(), LedgerKinds.Lease, null, content)], cancellation);
        }
        catch (LeaseLostException)
        {
            return false;
        }

        await KeepConfigurationAsync(plant, cancellation);
        refusal = null;
        logger.LogInformation(
            "This worker decides for the cell (lease {Token}){Before}",
            given, answer.Before is { } silent ? $"; {silent} had fallen silent" : "");
        return true;
    }

    /// <summary>Every version of the plant file that was ever in force stands in the ledger whole, once each time it comes into force.</summary>
    private async Task KeepConfigurationAsync(PlantVersion plant, CancellationToken cancellation)
    {
        var newest = await ledger.NewestAsync(LedgerKinds.Config, null, 1, cancellation);
        if (newest is [var last] && JsonDocument.Parse(last.Line.Json).RootElement.GetProperty("configVersion").GetString() == plant.Version)
        {
            return;
        }

        var content = System.Text.Encoding.UTF8.GetString(PlantJson.ToUtf8(plant));
        await ledger.AppendAsync([new LedgerLine(plan.CellTime.GetUtcNow(), LedgerKinds.Config, null, content)], cancellation);
    }

    /// <summary>Who asked for the lease meanwhile and was refused: a line each, and only then forgotten.</summary>
    private async Task KeepRefusalsAsync(CancellationToken cancellation)
    {
        foreach (var refused in lease.Refusals())
        {
            var content = JsonSerializer.Serialize(
                new { token, refused = new { host = refused.Owner.Host, process = refused.Owner.Process, at = refused.Time } }, JsonSerializerOptions.Web);
            await ledger.AppendAsync([new LedgerLine(plan.CellTime.GetUtcNow(), LedgerKinds.Lease, null, content)], cancellation);
            lease.Forget(refused);
            logger.LogWarning("Process {Process} on {Host} asked for the lease of this cell and was refused; this worker decides", refused.Owner.Process, refused.Owner.Host);
        }
    }

    private void StandBy(LeaseHolder holder)
    {
        var now = $"This worker stands by and decides nothing: {holder} decides for this cell. Its pages may be looked at. "
            + "It takes over when the other stops; to run both, give each its own cell, Storage:Path and Http:Urls.";
        if (refusal != now)
        {
            refusal = now;
            logger.LogWarning("{Refusal}", now);
            lease.NoteRefusal(LeaseOwner.Here, DateTimeOffset.UtcNow);
        }
    }
}
