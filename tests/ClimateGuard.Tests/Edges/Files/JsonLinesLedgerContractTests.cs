using ClimateGuard.Edges.Files;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.Tests.Edges.Files;

public sealed class JsonLinesLedgerContractTests : LedgerStoreContract
{
    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-test-").FullName;
    private JsonLinesLedger? ledger;

    protected override ILedgerStore Open() =>
        ledger = JsonLinesLedger.Open(Path.Combine(folder, "ledger.jsonl"), CellId, NullLogger.Instance);

    protected override ILedgerStore Reopen()
    {
        ledger?.Dispose();
        return Open();
    }

    protected override void Close()
    {
        ledger?.Dispose();
        Directory.Delete(folder, recursive: true);
    }
}
