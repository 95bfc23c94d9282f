using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Files;

/// <summary>The file itself: torn ends, changed bytes, other owners.</summary>
public sealed class JsonLinesLedgerTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore log = new();
    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-test-").FullName;

    private string FilePath => Path.Combine(folder, "ledger.jsonl");

    public void Dispose()
    {
        Directory.Delete(folder, recursive: true);
        log.Dispose();
    }

    [Fact]
    public async Task The_file_reads_as_documented()
    {
        await FillAsync(1);
        var lines = await File.ReadAllLinesAsync(FilePath, None);

        // Hash: printf '%s\n%s\n%s\n%s\n%s\n%s' 'climateguard ledger 1 of cell cell1' 1 2026-03-02T06:00:00.0000000Z alert M1 '{"n":0}' | sha256sum
        Assert.Equal(
            [
                """{"ledger":1,"cell":"cell1"}""",
                """{"seq":1,"time":"2026-03-02T06:00:00.0000000Z","kind":"alert","machine":"M1","content":{"n":0},"hash":"6424e098737812520432d211c33a03a9bde7218f8dae837552fe936b0f2efd7d"}""",
            ],
            lines);
    }

    [Fact]
    public async Task An_end_torn_off_anywhere_is_cut_away_and_reported_and_the_chain_goes_on()
    {
        await FillAsync(3);
        var whole = await File.ReadAllBytesAsync(FilePath, None);
        for (var kept = 0; kept < whole.Length; kept++)
        {
            await File.WriteAllBytesAsync(FilePath, whole[..kept], None);
            var sound = Math.Max(0, whole[..kept].Count(letter => letter == '\n') - 1);
            var torn = kept - (Array.LastIndexOf(whole, (byte)'\n', Math.Max(kept - 1, 0)) is var end && kept > 0 ? end + 1 : 0);
            using (var ledger = Open())
            {
                Assert.Equal(torn, ledger.TornBytes);
                Assert.Equal(sound, (await ledger.ReadAsync(0, 10, None)).Count);
                await ledger.AppendAsync([new LedgerLine(Begin, "notice", null, "{}")], None);
            }

            var (_, verdict) = LedgerExport.Verify(FilePath, null);
            Assert.Null(verdict.Break);
            Assert.Equal(sound + 1, verdict.Lines);
        }

        Assert.Contains("its last 1 bytes were cut away", log.Complaints[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Any_byte_changed_in_the_lines_is_found_and_the_file_is_not_written_on()
    {
        await FillAsync(3);
        var whole = await File.ReadAllBytesAsync(FilePath, None);
        var begin = Array.IndexOf(whole, (byte)'\n') + 1;
        for (var at = begin; at < whole.Length; at++)
        {
            var bent = whole.ToArray();
            bent[at] ^= 1;
            await File.WriteAllBytesAsync(FilePath, bent, None);

            Assert.True(LedgerExport.Verify(FilePath, null).Verdict.Break is not null, $"byte {at} of {whole.Length} was changed unseen");
        }

        await File.WriteAllTextAsync(
            FilePath, (await File.ReadAllTextAsync(FilePath, None)).Replace("{\"n\":1}", "{\"n\":7}", StringComparison.Ordinal), None);
        var fault = Assert.Throws<StoreUnavailableException>(Open);
        Assert.Contains("is broken at line", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_of_another_cell_another_form_or_another_process_is_refused()
    {
        await FillAsync(1);
        Assert.Contains(
            "the ledger of cell cell1, not of cell2",
            Assert.Throws<StoreUnavailableException>(() => JsonLinesLedger.Open(FilePath, "cell2", log)).Message,
            StringComparison.Ordinal);
        using (Open())
        {
            Assert.Throws<StoreUnavailableException>(Open);
        }

        await File.WriteAllTextAsync(FilePath, "time,sensor\n", None);
        Assert.Contains("not a ledger of this form", Assert.Throws<StoreUnavailableException>(Open).Message, StringComparison.Ordinal);
        Assert.Equal("time,sensor\n", await File.ReadAllTextAsync(FilePath, None));
        Assert.Throws<StoreUnavailableException>(() => LedgerExport.Verify(FilePath, null));
    }

    [Fact]
    public async Task An_export_is_the_same_chain_and_is_whole_or_not_there()
    {
        using var ledger = log.OpenLedger();
        await ledger.AppendAsync([.. Enumerable.Range(0, 3).Select(Line)], None);
        using var view = SqliteLedgerView.Open(log.Storage);

        var written = LedgerExport.Write(FilePath, view.CellId, view.AsOfNow());

        var (cell, read) = LedgerExport.Verify(FilePath, (await ledger.NewestAsync(null, null, 1, None))[0].Head);
        Assert.Equal(("cell1", written), (cell, read));
        Assert.Null(read.Break);
        Assert.Throws<InvalidOperationException>(() => LedgerExport.Write(FilePath, view.CellId, Failing(view.AsOfNow())));
        Assert.Equal(read, LedgerExport.Verify(FilePath, null).Verdict);
        Assert.Equal(["ledger.jsonl"], Directory.GetFiles(folder).Select(Path.GetFileName));
        Assert.Throws<StoreUnavailableException>(() => LedgerExport.Write(Path.Combine(folder, "no", "such.jsonl"), view.CellId, view.AsOfNow()));
    }

    private static IEnumerable<LedgerEntry> Failing(IEnumerable<LedgerEntry> entries)
    {
        yield return entries.First();
        throw new InvalidOperationException("stopped in the middle");
    }

    private static LedgerLine Line(int n) => new(Begin.AddSeconds(n), "alert", "M1", $"{{\"n\":{n}}}");

    private JsonLinesLedger Open() => JsonLinesLedger.Open(FilePath, "cell1", log);

    private async Task FillAsync(int lines)
    {
        using var ledger = Open();
        await ledger.AppendAsync([.. Enumerable.Range(0, lines).Select(Line)], None);
    }
}
