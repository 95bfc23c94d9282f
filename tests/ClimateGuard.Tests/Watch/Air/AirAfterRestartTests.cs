using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Air;

/// <summary>A worker that ends while a finding stands, and the next one on the same ledger and history.</summary>
public sealed class AirAfterRestartTests : IDisposable
{
    private static readonly TimeSpan End = TimeSpan.FromHours(48 + 16);
    private readonly TemporaryStore store = new();
    private readonly Cell cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
    private readonly List<TrustedReading> readings = [];
    private readonly List<Decision> told = [];

    public void Dispose() => store.Dispose();

    [Fact]
    public async Task The_next_worker_goes_on_as_if_there_had_been_only_one()
    {
        using var history = store.OpenReadings(cell);
        var monday = DemoScripts.MondayMidnight(cell);
        var world = new VirtualCell(cell, DemoScripts.Week(cell, 1));
        var first = new AirWatch(cell, AirPace.Usual);
        Live(world, monday + End, told, first);
        await history.AppendAsync(readings.ToArray(), TestContext.Current.CancellationToken);
        Assert.Contains(first.Snapshot.Findings, finding => finding.Place is { Cause: "F07", AirHandler: "ahu1" });

        var next = new AirWatch(cell, AirPace.Usual);
        next.AwaitPast();
        next.Restore(
            [.. Lines(LedgerKinds.Finding).Select(FindingLines.Finding).OfType<FindingCase>()],
            [.. Lines(LedgerKinds.Excursion).Select(FindingLines.Excursion).OfType<ZoneExcursion>()],
            []);
        next.Restore(
            [.. Lines(LedgerKinds.Finding).Select(FindingLines.Finding).OfType<FindingCase>()],
            [.. Lines(LedgerKinds.Excursion).Select(FindingLines.Excursion).OfType<ZoneExcursion>()],
            []);
        Assert.Equal(first.Snapshot.Findings.Select(finding => finding.Id), next.Snapshot.Findings.Select(finding => finding.Id));
        next.Pass(world.Now, [], []);
        Assert.Null(next.Snapshot.JudgedAt);

        next.Take(await AirPast.ReadAsync(history, cell, next, world.Now, TestContext.Current.CancellationToken));
        List<Decision> byFirst = [], byNext = [];
        Live(world, monday + TimeSpan.FromHours(72), byFirst, first, (next, byNext));

        Assert.Contains(byFirst.OfType<FindingTold>(), f => f.Finding is { Place.Cause: "F07", State: FindingState.Closed });
        Assert.Equal(Words(byFirst), Words(byNext));
    }

    [Fact]
    public async Task A_history_that_cannot_be_read_is_said_and_holds_up_nothing()
    {
        var air = new AirWatch(cell, AirPace.Usual);
        air.AwaitPast();
        Assert.Contains("history is being read", string.Concat(air.Snapshot.Notes), StringComparison.Ordinal);

        air.Take(await AirPast.ReadAsync(new BrokenStore(), cell, air, Some.Morning, TestContext.Current.CancellationToken));

        Assert.False(air.AwaitsPast);
        Assert.Contains("The history could not be read", string.Concat(air.Snapshot.Notes), StringComparison.Ordinal);
    }

    private sealed class BrokenStore : IReadingStore
    {
        public ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation) => throw new IOException("The disk is away.");

        public ValueTask KeepUnreadableAsync(IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation) =>
            throw new IOException("The disk is away.");

        public ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation) =>
            throw new IOException("The disk is away.");

        public IAsyncEnumerable<StoredReading> RowsAsync(string sensorId, DateTimeOffset from, DateTimeOffset to, CancellationToken cancellation) =>
            throw new IOException("The disk is away.");
    }

    private void Live(VirtualCell world, DateTimeOffset until, List<Decision> decisions, AirWatch watch, (AirWatch Watch, List<Decision> Decisions)? other = null)
    {
        var saidAt = new long[cell.Sensors.Count];
        while (world.Now < until)
        {
            world.Advance(
                world.Now.AddMinutes(1),
                reading =>
                {
                    // a value a minute is enough here, and quick to store
                    if (reading.EpochMilliseconds - saidAt[reading.Sensor] < 55_000) return;
                    saidAt[reading.Sensor] = reading.EpochMilliseconds;
                    var trusted = new TrustedReading(reading, reading.Value, Trust.Accepted, TrustReason.None);
                    if (other is null) readings.Add(trusted);
                    watch.Take(trusted);
                    other?.Watch.Take(trusted);
                },
                happened =>
                {
                    watch.Take(happened, world.Now, [], decisions);
                    other?.Watch.Take(happened, world.Now, [], other.Value.Decisions);
                });
            watch.Pass(world.Now, [], decisions);
            other?.Watch.Pass(world.Now, [], other.Value.Decisions);
        }
    }

    private IEnumerable<LedgerLine> Lines(string kind) => told.Select(LedgerLines.Of).OfType<LedgerLine>().Where(line => line.Kind == kind);

    private static IEnumerable<string> Words(IEnumerable<Decision> decisions) => decisions.Select(decision => decision switch
    {
        FindingTold f => FormattableString.Invariant($"{f.Time:O} {f.Finding.Id} {f.Finding.State} {f.Finding.Probability:0.000}"),
        ExcursionTold e => FormattableString.Invariant($"{e.Time:O} {e.Excursion.Zone} {e.Excursion.Begin:O} {e.Excursion.End:O} {e.Excursion.DegreeMinutes:0.0}"),
        _ => decision.ToString(),
    });
}
