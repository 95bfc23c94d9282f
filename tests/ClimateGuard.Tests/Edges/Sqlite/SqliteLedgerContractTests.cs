using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Sqlite;

public sealed class SqliteLedgerContractTests : LedgerStoreContract
{
    private readonly TemporaryStore place = new();
    private SqliteLedger? ledger;

    protected override ILedgerStore Open() => ledger = place.OpenLedger();

    protected override ILedgerStore Reopen()
    {
        ledger?.Dispose();
        return Open();
    }

    protected override void Close()
    {
        ledger?.Dispose();
        place.Dispose();
    }
}
