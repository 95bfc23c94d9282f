using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Sqlite.History;

/// <summary>An import beside a worker: two stores open on one folder, both packing into the same months, which are opened and closed all the time.</summary>
public sealed class TwoWritersTests : IDisposable
{
    private const int Batches = 60;
    private const int Rows = 40;

    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();

    public void Dispose() => place.Dispose();

    [Fact]
    public async Task Neither_fails_or_loses_a_row_while_the_other_begins_and_packs_months()
    {
        var storage = place.Storage with { LooseReadings = 100 };
        using var one = place.OpenReadings(TemporaryStore.CellWith(2), storage);
        using var other = place.OpenReadings(TemporaryStore.CellWith(2), storage);

        await Task.WhenAll(Task.Run(() => FillAsync(one, 0)), Task.Run(() => FillAsync(other, 1)));

        Assert.Empty(place.Complaints);
        foreach (var (store, sensor) in new[] { (one, "s0"), (one, "s1"), (other, "s0"), (other, "s1") })
        {
            var rows = await store.RowsAsync(sensor, Begin, Begin.AddYears(10), None).ToListAsync(None);
            Assert.Equal(Enumerable.Range(0, Batches * Rows).Select(n => (double)n), rows.Select(row => row.Value));
        }
    }

    private static async Task FillAsync(SqliteReadings store, int sensor)
    {
        for (var batch = 0; batch < Batches; batch++)
        {
            // A batch is two days, so that months begin while the other looks for them.
            var rows = Enumerable.Range(batch * Rows, Rows).Select(n => new TrustedReading(
                new Reading(sensor, Begin.AddHours(n * 1.2).ToUnixTimeMilliseconds(), n), n, Trust.Accepted, TrustReason.None)).ToArray();
            await store.AppendAsync(rows, None);
            await store.ReadAsync($"s{1 - sensor}", Begin, Begin.AddYears(10), 100, None);
        }
    }
}
