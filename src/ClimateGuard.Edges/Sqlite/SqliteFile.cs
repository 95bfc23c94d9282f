using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;
using SQLitePCL;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>One file of the store, open for one writer: made, checked, brought to the present shape, or set aside when damaged.</summary>
internal sealed class SqliteFile : IDisposable
{
    private const string Untouched =
        "Nothing was lost: what is on disk was not touched, and messages not yet acknowledged stay with the broker and come again.";

    private SqliteFile(SqliteConnection writer, StoreOpening opening)
    {
        Writer = writer;
        Opening = opening;
    }

    public SqliteConnection Writer { get; }

    public StoreOpening Opening { get; }

    public string Path => Opening.Path;

    /// <summary>Opens a file of the store.</summary>
    /// <exception cref="StoreUnavailableException">The folder is a file, read-only or full, or a newer release wrote the file.</exception>
    public static SqliteFile Open(SqliteStorage storage, SqliteFileKind kind, TimeProvider clock, ILogger log)
    {
        storage.Validate();
        var path = System.IO.Path.Combine(PrepareFolder(storage.Folder), kind.FileName);
        try
        {
            var created = !File.Exists(path);
            if (TryOpen(path, storage, kind, out var writer, out var check, out var damage))
            {
                Report(log, path, check, storage);
                return new SqliteFile(writer!, new StoreOpening(path, created, null, check));
            }

            var aside = SetAside(path, clock);
            log.LogError(
                "{Path} was damaged ({Damage}) and now lies at {Aside}; an empty file was started. Keep the damaged one: most of it can be read with sqlite3 .recover",
                path, damage, aside);
            if (!TryOpen(path, storage, kind, out writer, out check, out damage))
            {
                throw new StoreUnavailableException($"{path} was made new and is damaged at once ({damage}): look at the disk. {Untouched}");
            }

            return new SqliteFile(writer!, new StoreOpening(path, true, aside, check));
        }
        catch (SqliteException fault)
        {
            throw SqliteFault.Explain(fault, "open the store", path, Untouched);
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException and not StoreUnavailableException)
        {
            throw SqliteFault.Explain(fault, storage.Folder, Untouched);
        }
    }

    public void Dispose() => Writer.Dispose();

    private static string PrepareFolder(string folder)
    {
        var full = System.IO.Path.GetFullPath(folder);
        try
        {
            Directory.CreateDirectory(full);
            return full;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw SqliteFault.Explain(fault, full, Untouched);
        }
    }

    private static bool TryOpen(
        string path, SqliteStorage storage, SqliteFileKind kind, out SqliteConnection? writer, out StoreCheck check, out string damage)
    {
        check = StoreCheck.Partial;
        damage = "";
        writer = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Pooling = false, DefaultTimeout = 5 }.ToString());
        try
        {
            writer.Open();
            Configure(writer, kind.FlushEachCommit || storage.FlushEachCommit);
            damage = Check(writer, storage.CheckAtMost, out check);
            if (damage.Length == 0)
            {
                kind.Schema.Apply(writer);
                return true;
            }
        }
        catch (SqliteException fault) when (SqliteFault.IsDamage(fault))
        {
            damage = fault.Message;
        }
        catch
        {
            writer.Dispose();
            throw;
        }

        writer.Dispose();
        writer = null;
        return false;
    }

    private static void Configure(SqliteConnection writer, bool flushEachCommit)
    {
        writer.Do("PRAGMA busy_timeout = 5000");
        if (writer.Ask("PRAGMA journal_mode = WAL") is not "wal")
        {
            throw new StoreUnavailableException(
                $"{writer.DataSource} cannot keep a write-ahead log, as on most network drives. Name a folder on a local disk in Storage:Path. {Untouched}");
        }

        writer.Do(flushEachCommit ? "PRAGMA synchronous = FULL" : "PRAGMA synchronous = NORMAL");
        // The open ends of 1 000 series are 1 000 pages of 4 KiB; with the 2 MB that SQLite takes by itself each batch reads them again.
        writer.Do("PRAGMA cache_size = -32768");
        // A batch of 1 000 series changes 1 000 pages, the size at which SQLite copies its log into the file: at each commit, that is. With
        // 8 000 pages (32 MB) a page is copied once for eight such batches.
        writer.Do("PRAGMA wal_autocheckpoint = 8000");
        // After a burst the log shrinks again instead of keeping its greatest size for ever.
        writer.Do("PRAGMA journal_size_limit = 33554432");
    }

    /// <summary>Reads as much of the file as the time allows; an empty answer means nothing wrong was found.</summary>
    private static string Check(SqliteConnection writer, TimeSpan atMost, out StoreCheck check)
    {
        check = StoreCheck.Partial;
        if (atMost == TimeSpan.Zero)
        {
            return "";
        }

        var end = Environment.TickCount64 + (long)atMost.TotalMilliseconds;
        raw.sqlite3_progress_handler(writer.Handle, 10_000, _ => Environment.TickCount64 > end ? 1 : 0, null);
        try
        {
            var found = writer.Ask("PRAGMA quick_check(1)") as string ?? "";
            check = StoreCheck.Whole;
            return found == "ok" ? "" : found;
        }
        catch (SqliteException fault) when (fault.SqliteErrorCode == raw.SQLITE_INTERRUPT)
        {
            return "";
        }
        finally
        {
            raw.sqlite3_progress_handler(writer.Handle, 0, null, null);
        }
    }

    /// <summary>Size of a file on disk, its log included; 0 when it is not there.</summary>
    public static long BytesOf(string path)
    {
        var (file, log) = (new FileInfo(path), new FileInfo(path + "-wal"));
        return (file.Exists ? file.Length : 0) + (log.Exists ? log.Length : 0);
    }

    /// <summary>Moves a damaged file and its log out of the way; returns where it now lies.</summary>
    public static string SetAside(string path, TimeProvider clock)
    {
        var stamp = clock.GetUtcNow().UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);
        var aside = $"{path}.damaged-{stamp}";
        for (var n = 2; File.Exists(aside); n++)
        {
            aside = string.Create(CultureInfo.InvariantCulture, $"{path}.damaged-{stamp}-{n}");
        }

        File.Move(path, aside);
        // The log goes along under the same name: it may hold rows that never reached the file.
        foreach (var suffix in (ReadOnlySpan<string>)["-wal", "-shm"])
        {
            if (File.Exists(path + suffix))
            {
                File.Move(path + suffix, aside + suffix, overwrite: true);
            }
        }

        return aside;
    }

    private static void Report(ILogger log, string path, StoreCheck check, SqliteStorage storage)
    {
        if (check == StoreCheck.Partial && storage.CheckAtMost > TimeSpan.Zero)
        {
            log.LogInformation("{Path} was checked in part only: it is too large for {Time}", path, storage.CheckAtMost);
        }
    }
}

/// <summary>What sets one file of the store apart from the other.</summary>
internal sealed record SqliteFileKind(string FileName, SqliteSchema Schema, bool FlushEachCommit);
