using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The months of the history in their folder: which there are, how to open one, and what happens to a damaged one. Safe across threads.</summary>
internal sealed class SegmentShelf(SqliteStorage storage, TimeProvider clock, ILogger log)
{
    private readonly Lock gate = new();
    private readonly List<string> damaged = [];
    private IReadOnlyList<SegmentMonth> months = [];

    /// <summary>The months, oldest first.</summary>
    public IReadOnlyList<SegmentMonth> Months => Volatile.Read(ref months);

    /// <summary>Where damaged months now lie, since the start.</summary>
    public IReadOnlyList<string> Damaged
    {
        get
        {
            lock (gate)
            {
                return [.. damaged];
            }
        }
    }

    public string PathOf(SegmentMonth month) => Path.Combine(Path.GetFullPath(storage.Folder), SegmentSchema.FileName(month));

    /// <summary>Looks into the folder again.</summary>
    public void Refresh() => Volatile.Write(ref months, SegmentSchema.In(Path.GetFullPath(storage.Folder)));

    /// <summary>Opens a month for writing, makes it when it is not there, and sets a damaged one aside.</summary>
    public SqliteFile OpenWriter(SegmentMonth month)
    {
        var file = SqliteFile.Open(storage with { CheckAtMost = TimeSpan.Zero }, SegmentSchema.Kind(month), clock, log);
        Note(file.Opening);
        return file;
    }

    /// <summary>Checks a month for at most the time of the settings and sets it aside when it is damaged.</summary>
    public StoreCheck Check(SegmentMonth month, TimeSpan atMost)
    {
        using var file = SqliteFile.Open(storage with { CheckAtMost = atMost }, SegmentSchema.Kind(month), clock, log);
        Note(file.Opening);
        return file.Opening.Check;
    }

    /// <summary>Does something with a month; when that finds damage, the month is set aside and the answer is that of nobody.</summary>
    /// <returns>Whether it was read.</returns>
    public bool TryRead(SegmentMonth month, Action<SqliteConnection> read)
    {
        try
        {
            using var reader = new SqliteConnection(ToRead(PathOf(month)));
            reader.OpenToRead();
            using var oneState = reader.BeginTransaction(deferred: true);
            if (!IsMade(reader))
            {
                return false;
            }

            read(reader);
            return true;
        }
        catch (Exception fault) when (fault is DamagedBlockException || (fault is SqliteException sqlite && SqliteFault.IsDamage(sqlite)))
        {
            SetAside(month, fault.Message);
            return false;
        }
        catch (SqliteException fault) when (fault.SqliteErrorCode == SQLitePCL.raw.SQLITE_CANTOPEN && !File.Exists(PathOf(month)))
        {
            // It went out of its time, or was set aside, since the months were listed.
            Refresh();
            return false;
        }
    }

    /// <summary>Moves a damaged month out of the way; the others go on.</summary>
    public void SetAside(SegmentMonth month, string damage)
    {
        lock (gate)
        {
            var path = PathOf(month);
            if (!File.Exists(path))
            {
                return;
            }

            ClosePool(path);
            var aside = SqliteFile.SetAside(path, clock);
            damaged.Add(aside);
            log.LogError(
                "{Path} was damaged ({Damage}) and now lies at {Aside}; its month is missing from charts until it is mended, all others go on. Keep it: most of it can be read with sqlite3 .recover, or put back the file of the last backup",
                path, damage, aside);
            Refresh();
        }
    }

    /// <summary>Removes a month that holds nothing any more.</summary>
    public void Remove(SegmentMonth month)
    {
        lock (gate)
        {
            var path = PathOf(month);
            ClosePool(path);
            foreach (var suffix in (ReadOnlySpan<string>)["", "-wal", "-shm"])
            {
                File.Delete(path + suffix);
            }

            Refresh();
        }
    }

    /// <summary>Size of all months on disk.</summary>
    public long Bytes() => Months.Sum(month => SqliteFile.BytesOf(PathOf(month)));

    /// <summary>Lets go of the files.</summary>
    public void Close()
    {
        foreach (var month in Months)
        {
            ClosePool(PathOf(month));
        }
    }

    /// <summary>False while another process is making the month: nothing is in it yet.</summary>
    private static bool IsMade(SqliteConnection reader)
    {
        using var version = new SqliteStatement(reader, "PRAGMA user_version");
        return version.Next() && version.Number(0) > 0;
    }

    private static string ToRead(string path) => new SqliteConnectionStringBuilder
    {
        DataSource = path,
        Mode = SqliteOpenMode.ReadWrite,
        Pooling = true,
        DefaultTimeout = 5,
    }.ToString();

    private static void ClosePool(string path)
    {
        using var pooled = new SqliteConnection(ToRead(path));
        SqliteConnection.ClearPool(pooled);
    }

    private void Note(StoreOpening opening)
    {
        lock (gate)
        {
            if (opening.SetAside is { } aside)
            {
                damaged.Add(aside);
                ClosePool(opening.Path);
            }

            if (opening.Created)
            {
                Refresh();
            }
        }
    }
}
