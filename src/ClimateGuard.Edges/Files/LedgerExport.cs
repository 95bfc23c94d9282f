using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>Writes a whole ledger to a file of JSON lines, and reads such a file to check it.</summary>
public static class LedgerExport
{
    /// <summary>Writes all entries as they stand, sound or not: first beside the file, then in its place, so that the file is whole or not there.</summary>
    /// <param name="path">The file; one that is there is replaced.</param>
    /// <param name="cellId">Id of the cell.</param>
    /// <param name="entries">The entries, in order.</param>
    /// <returns>What a check of the chain found on the way.</returns>
    /// <exception cref="StoreUnavailableException">It cannot be written; what was there before stands as it was.</exception>
    public static LedgerVerdict Write(string path, string cellId, IEnumerable<LedgerEntry> entries)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        ArgumentNullException.ThrowIfNull(entries);
        var full = Path.GetFullPath(path);
        var beside = full + $".{Environment.ProcessId}.part";
        try
        {
            var verdict = WriteWhole(beside, cellId, entries);
            File.Move(beside, full, overwrite: true);
            return verdict;
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException and not StoreUnavailableException)
        {
            throw new StoreUnavailableException(
                $"Cannot write {full}: {fault.Message.TrimEnd('.')}. Name another file; what was there before stands as it was.", fault);
        }
        finally
        {
            RemoveIfThere(beside);
        }
    }

    /// <summary>Follows the chain of such a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="known">A head noted earlier, or null.</param>
    /// <exception cref="StoreUnavailableException">It is not there, cannot be read, or is no ledger.</exception>
    public static (string CellId, LedgerVerdict Verdict) Verify(string path, LedgerHead? known)
    {
        try
        {
            using var file = File.OpenHandle(path);
            using var lines = FileLines.Of(file).GetEnumerator();
            if (!lines.MoveNext() || LedgerJson.ReadHeader(lines.Current.Bytes) is not { } cell)
            {
                throw new StoreUnavailableException(
                    $"{path} is no ledger of JSON lines: its first line would be such as {{\"ledger\":1,\"cell\":\"cell4\"}}. It was only read.");
            }

            var check = new LedgerCheck(cell, known);
            for (var place = 1L; lines.MoveNext(); place++)
            {
                check.Take(LedgerJson.Read(lines.Current.Bytes, place) is var entry && lines.Current.Whole
                    ? entry
                    : entry with { Fault = "the line was cut off in the middle" });
            }

            return (cell, check.Finish());
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException and not StoreUnavailableException)
        {
            throw new StoreUnavailableException($"Cannot read {path}: {fault.Message.TrimEnd('.')}.", fault);
        }
    }

    private static LedgerVerdict WriteWhole(string path, string cellId, IEnumerable<LedgerEntry> entries)
    {
        var check = new LedgerCheck(cellId, null);
        using var stream = new FileStream(path, FileMode.Create, FileAccess.Write);
        stream.Write(LedgerJson.Header(cellId));
        stream.WriteByte((byte)'\n');
        foreach (var entry in entries)
        {
            check.Take(entry);
            stream.Write(LedgerJson.ToUtf8(entry));
            stream.WriteByte((byte)'\n');
        }

        stream.Flush(flushToDisk: true);
        return check.Finish();
    }

    private static void RemoveIfThere(string path)
    {
        if (File.Exists(path))
        {
            File.Delete(path);
        }
    }
}
