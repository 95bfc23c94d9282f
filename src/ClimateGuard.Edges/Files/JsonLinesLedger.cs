using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;
using Microsoft.Win32.SafeHandles;

namespace ClimateGuard.Edges.Files;

/// <summary>The ledger in one file of JSON lines that only grows, for replay and export; each append waits for the disk.</summary>
/// <remarks>
/// The lines have the form of <see cref="LedgerJson"/>. A line that a crash cut off in the middle is cut away at the next opening and
/// reported: its append never returned, so nothing rests on it; whole lines of the same batch before it stay. One process writes at a time,
/// held by the lock of the file. In memory stands, for each line, only its place, kind and machine.
/// </remarks>
public sealed class JsonLinesLedger : ILedgerStore, IDisposable
{
    private const string Unwritten = "None of these lines is in the ledger, so nothing may be announced that rests on them.";
    private const string Untouched = "The file was not touched.";

    private readonly Lock access = new();
    private readonly string path;
    private readonly string cellId;
    private readonly SafeFileHandle file;
    private readonly List<Place> places = [];
    private LedgerHead? head;
    private long length;

    private JsonLinesLedger(string path, string cellId, SafeFileHandle file)
    {
        this.path = path;
        this.cellId = cellId;
        this.file = file;
    }

    /// <summary>How many bytes of a line that was cut off in the middle were cut away at the opening; 0 when the end was whole.</summary>
    public long TornBytes { get; private set; }

    /// <summary>Opens a ledger, or makes it; follows its whole chain first.</summary>
    /// <param name="path">The file.</param>
    /// <param name="cellId">Id of the cell; the ledger of another is refused.</param>
    /// <param name="log">Told of a line that was cut away.</param>
    /// <exception cref="StoreUnavailableException">
    /// The file cannot be opened, another process writes it, it is of another cell, or its chain is broken.
    /// </exception>
    public static JsonLinesLedger Open(string path, string cellId, ILogger log)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        ArgumentException.ThrowIfNullOrWhiteSpace(cellId);
        ArgumentNullException.ThrowIfNull(log);
        JsonLinesLedger? ledger = null;
        try
        {
            ledger = new JsonLinesLedger(path, cellId, File.OpenHandle(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
            ledger.Index(log);
            return ledger;
        }
        catch (Exception fault)
        {
            ledger?.Dispose();
            if (fault is UnauthorizedAccessException or IOException and not StoreUnavailableException)
            {
                throw new StoreUnavailableException($"Cannot open the ledger {path}: {fault.Message.TrimEnd('.')}. {Untouched}", fault);
            }

            throw;
        }
    }

    /// <inheritdoc/>
    /// <exception cref="StoreUnavailableException">The lines could not be written; none was.</exception>
    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, CancellationToken cancellation)
    {
        LedgerLine.RefuseBad(lines);
        cancellation.ThrowIfCancellationRequested();
        lock (access)
        {
            if (lines.Count > 0)
            {
                Append(lines);
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    /// <remarks>Checkpoints are not kept: whoever replays from files begins at the begin.</remarks>
    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, IReadOnlyList<MachineCheckpoint> checkpoints, CancellationToken cancellation) =>
        AppendAsync(lines, cancellation);

    /// <inheritdoc/>
    public ValueTask<LedgerCheckpoints> CheckpointsAsync(CancellationToken cancellation)
    {
        lock (access)
        {
            return new(new LedgerCheckpoints(places.Count, []));
        }
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<LedgerEntry>> ReadAsync(long afterSeq, int most, CancellationToken cancellation)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(afterSeq);
        RefuseCount(most);
        lock (access)
        {
            var end = Math.Min(afterSeq + most, places.Count);
            var found = new List<LedgerEntry>();
            for (var seq = afterSeq + 1; seq <= end; seq++)
            {
                found.Add(Entry(seq));
            }

            return new(found);
        }
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<LedgerEntry>> ReadBackAsync(
        string? kind, string? machine, long beforeSeq, int most, CancellationToken cancellation)
    {
        RefuseCount(most);
        lock (access)
        {
            var found = new List<LedgerEntry>();
            for (var seq = Math.Min(beforeSeq - 1, places.Count); seq >= 1 && found.Count < most; seq--)
            {
                var place = places[(int)seq - 1];
                if ((kind is null || place.Kind == kind) && (machine is null || place.Machine == machine))
                {
                    found.Add(Entry(seq));
                }
            }

            return new(found);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => file.Dispose();

    private static void RefuseCount(int most)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(most, LedgerReading.MostLines);
    }

    private void Index(ILogger log)
    {
        var torn = 0L;
        var check = new LedgerCheck(cellId, null);
        string? cell = null;
        foreach (var line in FileLines.Of(file))
        {
            if (!line.Whole)
            {
                torn = line.Bytes.Length;
                break;
            }

            length = line.Offset + line.Bytes.Length + 1;
            if (line.Offset == 0)
            {
                cell = LedgerJson.ReadHeader(line.Bytes);
                RefuseOther(cell);
                continue;
            }

            var entry = LedgerJson.Read(line.Bytes, places.Count + 1);
            check.Take(entry);
            Remember(entry, line.Offset, line.Bytes.Length);
        }

        if (check.Finish().Break is { } broken)
        {
            throw new StoreUnavailableException($"The chain of the ledger {path} is broken at {broken}. Keep the file and begin another. {Untouched}");
        }

        Mend(torn, cell, log);
    }

    private void Mend(long torn, string? cell, ILogger log)
    {
        if (torn > 0)
        {
            RandomAccess.SetLength(file, length);
            TornBytes = torn;
            log.LogWarning(
                "{Path} ended in the middle of a line; its last {Bytes} bytes were cut away. Nothing rests on them: that append never returned",
                path, torn);
        }

        if (cell is null)
        {
            byte[] header = [.. LedgerJson.Header(cellId), (byte)'\n'];
            RandomAccess.Write(file, header, 0);
            length = header.Length;
        }

        RandomAccess.FlushToDisk(file);
    }

    private void RefuseOther(string? cell)
    {
        if (cell != cellId)
        {
            throw new StoreUnavailableException(
                $"{path} is {(cell is null ? "not a ledger of this form" : $"the ledger of cell {cell}, not of {cellId}")}. Name another file. {Untouched}");
        }
    }

    private void Append(IReadOnlyList<LedgerLine> lines)
    {
        var entries = LedgerChain.Extend(cellId, head, lines).ToArray();
        var texts = Array.ConvertAll(entries, LedgerJson.ToUtf8);
        byte[] bytes = [.. texts.SelectMany(text => text.Append((byte)'\n'))];
        try
        {
            RandomAccess.Write(file, bytes, length);
            RandomAccess.FlushToDisk(file);
        }
        catch (IOException fault)
        {
            // What may have been written in part must not stand before the next line; if this fails too, the next opening cuts it away.
            RandomAccess.SetLength(file, length);
            throw new StoreUnavailableException($"Cannot write the ledger {path}: {fault.Message.TrimEnd('.')}. {Unwritten}", fault);
        }

        for (var i = 0; i < entries.Length; i++)
        {
            Remember(entries[i], length, texts[i].Length);
            length += texts[i].Length + 1;
        }
    }

    private void Remember(LedgerEntry entry, long offset, int bytes)
    {
        places.Add(new Place(
            offset, bytes, string.Intern(entry.Line.Kind), entry.Line.Machine is null ? null : string.Intern(entry.Line.Machine)));
        head = entry.Head;
    }

    private LedgerEntry Entry(long seq)
    {
        var place = places[(int)seq - 1];
        var bytes = new byte[place.Length];
        RandomAccess.Read(file, bytes, place.Offset);
        return LedgerJson.Read(bytes, seq);
    }

    private readonly record struct Place(long Offset, int Length, string Kind, string? Machine);
}
