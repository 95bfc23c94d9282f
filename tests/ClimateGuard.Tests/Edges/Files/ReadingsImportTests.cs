using System.Globalization;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Files;

/// <summary>An import that was stopped, mended or repeated ends with the same rows as one that was not.</summary>
public sealed class ReadingsImportTests : IDisposable
{
    private const string Head = "time,sensor,value,unit\n";
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly Cell Cell = TemporaryStore.CellWith(3);

    private readonly TemporaryStore folder = new();
    private readonly SqliteReadings store;
    private readonly string file;

    public ReadingsImportTests()
    {
        store = folder.OpenReadings(Cell);
        file = folder.FileOf("january.csv");
    }

    public void Dispose()
    {
        store.Dispose();
        folder.Dispose();
    }

    [Fact]
    public async Task Rows_are_judged_as_if_they_had_come_when_they_were_taken()
    {
        File.WriteAllText(file, Head + "2026-03-02T06:00:00Z,s0,20.1,C\n2026-03-02T06:00:10Z,s0,300,C\n2001-01-01T00:00:00Z,s1,68,F\n");

        var result = await ImportAsync();

        Assert.Equal((true, 3, 2, 1), (result.Done, result.Rows, result.Accepted, result.Quarantined));
        Assert.Equal([(20.1, Trust.Accepted), (300, Trust.Quarantined)], (await RowsAsync("s0")).Select(row => (row.Raw, row.Trust)));
    }

    [Fact]
    public async Task A_second_import_changes_nothing_and_says_so()
    {
        File.WriteAllText(file, Head + Rows(0, 25_000));
        await ImportAsync();
        var before = store.Health().Rows;

        var again = await ImportAsync();

        Assert.Equal((true, 0, 25_001), (again.Done, again.Rows, again.GoesOnAfterLine));
        Assert.Equal(before, store.Health().Rows);
    }

    [Fact]
    public async Task A_stopped_import_goes_on_where_it_ended()
    {
        File.WriteAllText(file, Head + Rows(0, 25_000));
        using var stop = new CancellationTokenSource();
        var first = await ImportAsync(step => stop.Cancel(), cancellation: stop.Token);
        Assert.Equal((true, false, 10_000), (first.Stopped, first.Done, first.Rows));

        var second = await ImportAsync();

        Assert.Equal((true, 15_000, 10_001), (second.Done, second.Rows, second.GoesOnAfterLine));
        Assert.Equal(25_000, store.Health().Rows);
    }

    [Fact]
    public async Task A_bad_row_stops_it_and_the_mended_file_goes_on()
    {
        File.WriteAllText(file, Head + Rows(0, 22_000) + "2026-03-03T06:00:00Z,s9,20,C\n" + Rows(22_000, 1_000));
        var first = await ImportAsync();
        Assert.Equal((false, 22_000), (first.Done, first.Rows));
        Assert.StartsWith($"{file}:22002: sensor \"s9\" is not in the plant file; did you mean s0", first.Problem, StringComparison.Ordinal);

        File.WriteAllText(file, Head + Rows(0, 23_000));
        var second = await ImportAsync();

        Assert.Equal((true, 20_001), (second.Done, second.GoesOnAfterLine));
        Assert.Equal(23_000, store.Health().Rows);
    }

    [Fact]
    public async Task Bad_rows_can_be_passed_over_and_are_listed()
    {
        File.WriteAllText(file, Head + Rows(0, 2) + "2026-03-03T06:00:00Z,s9,20,C\nnonsense\n" + Rows(2, 2));

        var result = await ImportAsync(skipBad: true);

        Assert.Equal((true, 4, 2), (result.Done, result.Rows, result.Skipped));
        Assert.Equal([$"{file}:4: sensor", $"{file}:5: 1 fields"], result.SkippedRows.Select(row => string.Join(' ', row.Split(' ').Take(row.Contains("fields", StringComparison.Ordinal) ? 3 : 2))));
    }

    [Fact]
    public async Task A_file_that_grew_is_read_on_and_another_one_of_that_name_from_its_begin()
    {
        File.WriteAllText(file, Head + Rows(0, 12_000));
        await ImportAsync();
        File.AppendAllText(file, Rows(12_000, 500));
        var grown = await ImportAsync();
        File.WriteAllText(file, Head + Rows(50_000, 12_500));
        var other = await ImportAsync();

        Assert.Equal((500, 12_001), (grown.Rows, grown.GoesOnAfterLine));
        Assert.Equal((12_500, 0), (other.Rows, other.GoesOnAfterLine));
        Assert.Equal(25_000, store.Health().Rows);
    }

    [Fact]
    public async Task A_lost_or_damaged_note_of_how_far_it_was_costs_time_and_no_rows()
    {
        File.WriteAllText(file, Head + Rows(0, 12_000));
        await ImportAsync();
        File.WriteAllText(Path.Combine(folder.Folder, "imports.json"), "{ half");

        var again = await ImportAsync();

        Assert.Equal((12_000, 12_000), (again.Rows, store.Health().Rows));
    }

    [Fact]
    public void One_import_at_a_time()
    {
        using var first = ImportBook.Open(folder.Folder);
        Assert.Null(ImportBook.Open(folder.Folder));
    }

    [Fact]
    public async Task A_store_that_fails_leaves_a_note_of_what_is_in()
    {
        File.WriteAllText(file, Head + Rows(0, 25_000));
        await Assert.ThrowsAsync<ObjectDisposedException>(async () =>
        {
            using var failing = folder.OpenReadings(Cell);
            await ImportAsync(step => failing.Dispose(), into: failing);
        });

        Assert.Equal(10_001, (await ImportAsync()).GoesOnAfterLine);
        Assert.Equal(25_000, (await RowsAsync("s0")).Count + (await RowsAsync("s1")).Count + (await RowsAsync("s2")).Count);
    }

    private static string Rows(int first, int count) => string.Concat(Enumerable.Range(first, count).Select(n => string.Create(
        CultureInfo.InvariantCulture, $"{Begin.AddSeconds(n):yyyy-MM-ddTHH:mm:ssZ},s{n % 3},{20 + ((n % 7) / 10.0)},C\n")));

    private async Task<List<StoredReading>> RowsAsync(string sensor)
    {
        var rows = new List<StoredReading>();
        await foreach (var row in store.RowsAsync(sensor, Begin.AddYears(-30), Begin.AddYears(1), CancellationToken.None))
        {
            rows.Add(row);
        }

        return rows;
    }

    private async Task<ImportResult> ImportAsync(
        Action<ImportProgress>? progress = null, bool skipBad = false, IReadingStore? into = null, CancellationToken cancellation = default)
    {
        using var book = ImportBook.Open(folder.Folder)!;
        return await new ReadingsImport(into ?? store, Cell, book, TimeProvider.System) { SkipBad = skipBad }
            .RunAsync(file, progress ?? (_ => { }), cancellation);
    }
}
