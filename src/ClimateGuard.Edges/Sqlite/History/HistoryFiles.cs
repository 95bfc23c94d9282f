using System.Globalization;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The files of a history seen from outside, also while a worker writes: copied, checked, counted.</summary>
public static class HistoryFiles
{
    /// <summary>Copies the history; what a worker writes meanwhile is either in the copy or still in the log that was copied first.</summary>
    /// <param name="folder">The folder of the store.</param>
    /// <param name="target">A folder without a history; made when it is not there.</param>
    /// <returns>The files written.</returns>
    /// <exception cref="StoreUnavailableException">There is no history, the target has one, or a file cannot be read or written.</exception>
    public static IReadOnlyList<string> Backup(string folder, string target)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(target);
        var files = Files(folder);
        Prepare(target);
        var written = new List<string>();
        foreach (var path in files)
        {
            var copy = Path.Combine(target, Path.GetFileName(path));
            Guarded(path, "copy the history", () => Copy(path, copy));
            written.Add(copy);
        }

        // A month that began while the others were copied.
        foreach (var path in Files(folder).Except(files))
        {
            var copy = Path.Combine(target, Path.GetFileName(path));
            Guarded(path, "copy the history", () => Copy(path, copy));
            written.Add(copy);
        }

        return written;
    }

    /// <summary>Reads every page and every block of every file.</summary>
    /// <param name="folder">The folder of the store.</param>
    /// <returns>Each file with what is wrong with it, or null.</returns>
    /// <exception cref="StoreUnavailableException">There is no history, or a file cannot be opened.</exception>
    public static IReadOnlyList<(string Path, string? Damage)> Check(string folder) =>
        [.. Files(folder).Select(path => (path, Guarded(path, "check the history", () => DamageOf(path))))];

    /// <summary>What each file holds.</summary>
    /// <param name="folder">The folder of the store.</param>
    /// <exception cref="StoreUnavailableException">There is no history, or a file cannot be read.</exception>
    public static IReadOnlyList<HistoryFileInfo> Info(string folder) =>
        [.. Files(folder).Select(path => Guarded(path, "read the history", () => InfoOf(path)))];

    private static List<string> Files(string folder)
    {
        var full = Path.GetFullPath(folder);
        var log = Path.Combine(full, ReadingsSchema.Kind.FileName);
        if (!File.Exists(log))
        {
            throw new StoreUnavailableException($"There is no history in {full}: {log} is missing. Storage:Path must name the folder of the store.");
        }

        // The log first: what is packed while the months are copied is then in both, and never in neither.
        return [log, .. SegmentSchema.In(full).Select(month => Path.Combine(full, SegmentSchema.FileName(month)))];
    }

    private static void Prepare(string target)
    {
        try
        {
            Directory.CreateDirectory(target);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new StoreUnavailableException($"Cannot write to {target}: {fault.Message} Nothing was copied.", fault);
        }

        if (Directory.EnumerateFiles(target, "*.db").FirstOrDefault() is { } there)
        {
            throw new StoreUnavailableException($"{there} is there already: name a folder without files of a store. Nothing was copied.");
        }
    }

    private static void Copy(string from, string to)
    {
        var part = to + ".part";
        File.Delete(part);
        using (var source = OpenReader(from))
        using (var target = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = part, Pooling = false }.ToString()))
        {
            target.Open();
            source.BackupDatabase(target);
        }

        File.Move(part, to);
    }

    private static string? DamageOf(string path)
    {
        try
        {
            using var reader = OpenReader(path);
            if (reader.Ask("PRAGMA integrity_check(1)") is string found && found != "ok")
            {
                return found;
            }

            // Cut off while it was made, or not moved yet: the tables of this release are not there, and all pages were read.
            var isLog = path.EndsWith(ReadingsSchema.Kind.FileName, StringComparison.Ordinal);
            return SqliteSchema.VersionOf(reader) < (isLog ? ReadingsSchema.Kind.Schema.Version : 1) ? null
                : isLog ? DamageOfLog(reader)
                : DamageOfBlocks(reader);
        }
        catch (SqliteException fault) when (SqliteFault.IsDamage(fault))
        {
            return fault.Message;
        }
        catch (DamagedBlockException fault)
        {
            return fault.Message;
        }
    }

    private static string? DamageOfLog(SqliteConnection reader)
    {
        var rows = new LooseRows();
        using var bodies = new SqliteStatement(reader, "SELECT body FROM log");
        while (bodies.Next())
        {
            rows.Clear();
            LogBody.Unpack(bodies.Bytes(0), rows, 0);
        }

        return null;
    }

    private static string? DamageOfBlocks(SqliteConnection reader)
    {
        var (rows, scratch, aggregates) = (new RowBuffer(), new AggregateScratch(), new List<SeriesAggregate>());
        using var blocks = new SqliteStatement(reader, "SELECT id, level, t0, t1, count, body FROM block ORDER BY id");
        while (blocks.Next())
        {
            rows.Clear();
            aggregates.Clear();
            (long First, long Last, long Count) found;
            if (blocks.Number(1) == (long)HistoryLevel.Raw)
            {
                RawBlock.Unpack(blocks.Bytes(5), rows);
                found = (rows.Times[0], rows.Times[^1], rows.Count);
            }
            else
            {
                AggregateBlock.Unpack(blocks.Bytes(5), scratch, aggregates);
                found = (aggregates[0].Begin, aggregates[^1].Begin, aggregates.Count);
            }

            if (found != (blocks.Number(2), blocks.Number(3), blocks.Number(4)))
            {
                return string.Create(CultureInfo.InvariantCulture, $"block {blocks.Number(0)} does not hold what its index says");
            }
        }

        return null;
    }

    private static HistoryFileInfo InfoOf(string path)
    {
        using var reader = OpenReader(path);
        var bytes = SqliteFile.BytesOf(path);
        var version = SqliteSchema.VersionOf(reader);
        if (version == 0)
        {
            // Cut off while it was made: nothing is in it yet.
            return new HistoryFileInfo(path, bytes, 0, 0, 0, null, null);
        }

        if (path.EndsWith(ReadingsSchema.Kind.FileName, StringComparison.Ordinal))
        {
            if (version < ReadingsSchema.Kind.Schema.Version)
            {
                throw new StoreUnavailableException(
                    $"{path} is of an earlier release: start the worker once, which moves it into files by the month. The history itself was not touched.");
            }

            var loose = new LooseRows();
            using var bodies = new SqliteStatement(reader, "SELECT body FROM log");
            while (bodies.Next())
            {
                LogBody.Unpack(bodies.Bytes(0), loose, 0);
            }

            var all = loose.All.Select(pair => pair.Rows).ToArray();
            return new HistoryFileInfo(
                path, bytes, loose.Count, 0, 0, all.Length == 0 ? null : all.Min(rows => rows.Times[0]), all.Length == 0 ? null : all.Max(rows => rows.Times[^1]));
        }

        long Count(HistoryLevel level) =>
            (long)reader.Ask("SELECT ifnull(sum(count), 0) FROM block WHERE level = $level", ("$level", (long)level))!;
        return new HistoryFileInfo(
            path, bytes, Count(HistoryLevel.Raw), Count(HistoryLevel.Minute), Count(HistoryLevel.QuarterHour),
            reader.Ask("SELECT min(t0) FROM block") as long?, reader.Ask("SELECT max(t1) FROM block") as long?);
    }

    private static SqliteConnection OpenReader(string path)
    {
        var reader = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path, Mode = SqliteOpenMode.ReadWrite, Pooling = false, DefaultTimeout = 5,
        }.ToString());
        reader.OpenToRead();
        return reader;
    }

    private static void Guarded(string path, string doing, Action work) => Guarded(path, doing, () =>
    {
        work();
        return 0;
    });

    private static T Guarded<T>(string path, string doing, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException fault)
        {
            throw SqliteFault.Explain(fault, doing, path, "The history itself was not touched.");
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException and not StoreUnavailableException)
        {
            throw new StoreUnavailableException($"Cannot {doing} in {path}: {fault.Message} The history itself was not touched.", fault);
        }
    }
}

/// <summary>What one file of a history holds.</summary>
/// <param name="Path">The file.</param>
/// <param name="Bytes">Its size, its log included.</param>
/// <param name="Rows">Raw readings.</param>
/// <param name="Minutes">Aggregates of a minute.</param>
/// <param name="Quarters">Aggregates of a quarter of an hour.</param>
/// <param name="First">Event time of the first reading or aggregate, in ms since 1970, or null.</param>
/// <param name="Last">Event time of the last, or null.</param>
public sealed record HistoryFileInfo(string Path, long Bytes, long Rows, long Minutes, long Quarters, long? First, long? Last);
