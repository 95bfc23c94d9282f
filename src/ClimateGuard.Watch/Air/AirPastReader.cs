using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Brings back what the air was like before this worker began: from the ledger at once, from the history while the loop runs.</summary>
internal sealed class AirPastReader(CellLoopPorts ports, TimeProvider time)
{
    private const int Page = 1000;
    private const int NewestExcursions = 200;

    private AirWatch? followed;
    private Task<AirPast>? reading;

    /// <summary>Findings, answers, verified causes and the excursions that last, from the ledger.</summary>
    public async Task RestoreAsync(RunningCell running, CancellationToken cancellation)
    {
        var findings = new List<FindingCase>();
        var before = long.MaxValue;
        IReadOnlyList<LedgerEntry> page;
        do
        {
            page = await ports.Ledger.ReadBackAsync(LedgerKinds.Finding, null, before, Page, cancellation);
            findings.AddRange(page.Select(entry => ports.Finding(entry.Line)).OfType<FindingCase>());
            before = page.Count > 0 ? page[^1].Seq : before;
        }
        while (page.Count == Page);
        var excursions = await ports.Ledger.ReadBackAsync(LedgerKinds.Excursion, null, long.MaxValue, NewestExcursions, cancellation);
        findings.Reverse();
        followed = null;
        running.Air.Restore(
            findings, [.. excursions.Reverse().Select(entry => ports.Excursion(entry.Line)).OfType<ZoneExcursion>()], running.Remembered());
        running.Air.AwaitPast();
    }

    /// <summary>Begins to read the history for an air watch that is new, and gives it to it once it is read.</summary>
    public void Follow(AirWatch air, Cell cell, CancellationToken cancellation)
    {
        if (!ReferenceEquals(air, followed))
        {
            followed = air;
            air.AwaitPast();
            reading = Task.Run(() => AirPast.ReadAsync(ports.Readings, cell, air, time.GetUtcNow(), cancellation), cancellation);
        }

        if (reading is { IsCompletedSuccessfully: true })
        {
            air.Take(reading.Result);
            reading = null;
        }
    }
}
