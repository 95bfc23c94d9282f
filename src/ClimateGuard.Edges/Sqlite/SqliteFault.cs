using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Says to the person who must act what SQLite only says in a number.</summary>
public static class SqliteFault
{
    /// <summary>Puts a failure into words.</summary>
    /// <param name="fault">What SQLite reported.</param>
    /// <param name="doing">What was attempted, such as <c>write the history</c>.</param>
    /// <param name="path">The file.</param>
    /// <param name="kept">What became of the data, as one sentence.</param>
    public static StoreUnavailableException Explain(SqliteException fault, string doing, string path, string kept)
    {
        ArgumentNullException.ThrowIfNull(fault);
        return new StoreUnavailableException($"Cannot {doing} in {path}: {CauseAndCure(fault, path)} {kept}", fault) { DiskFull = IsFull(fault, path) };
    }

    /// <summary>Puts a refusal of the file system into words.</summary>
    /// <param name="fault">What the file system reported.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="kept">What became of the data, as one sentence.</param>
    public static StoreUnavailableException Explain(Exception fault, string folder, string kept)
    {
        ArgumentNullException.ThrowIfNull(fault);
        var cause = File.Exists(folder)
            ? "this is a file, and Storage:Path must name a folder. Name a folder, or move the file away."
            : fault is UnauthorizedAccessException
                ? "it may not be written. Give the worker's account the right to write there, or name another folder in Storage:Path."
                : $"{fault.Message.TrimEnd('.')}. Name a folder on a local disk in Storage:Path.";
        return new StoreUnavailableException($"Cannot open the store in {folder}: {cause} {kept}", fault);
    }

    /// <summary>Whether the file itself is broken, not its surroundings.</summary>
    internal static bool IsDamage(SqliteException fault) => fault.SqliteErrorCode is raw.SQLITE_CORRUPT or raw.SQLITE_NOTADB;

    private static bool IsFull(SqliteException fault, string path) =>
        fault.SqliteErrorCode == raw.SQLITE_FULL || (fault.SqliteErrorCode == raw.SQLITE_IOERR && FreeBytes(path) is < 1 << 20);

    private static string CauseAndCure(SqliteException fault, string path) => fault.SqliteErrorCode switch
    {
        _ when IsFull(fault, path) =>
            $"the disk is full{FreeWords(path)}. Free some space there, or name a folder on another disk in Storage:Path.",
        raw.SQLITE_READONLY or raw.SQLITE_CANTOPEN or raw.SQLITE_PERM =>
            "it is read-only or may not be opened. Give the worker's account the right to write the folder and its files, "
            + "or name another folder in Storage:Path.",
        raw.SQLITE_BUSY or raw.SQLITE_LOCKED =>
            "another program holds it. Is a second worker running on the same folder? Stop it, or give each its own Storage:Path.",
        raw.SQLITE_CORRUPT or raw.SQLITE_NOTADB =>
            "the file is damaged. Stop the worker, move the file away (keep it: most of it can be read) and start again.",
        raw.SQLITE_IOERR => $"the disk reports an error ({fault.SqliteExtendedErrorCode}). Look at the disk and its cable before anything else.",
        _ => $"SQLite says \"{fault.Message}\" ({fault.SqliteExtendedErrorCode}).",
    };

    private static string FreeWords(string path) => FreeBytes(path) is { } free ? $" ({free / 1024} KiB are free)" : "";

    /// <summary>Free space of the disk that holds a path, or null when it cannot be told.</summary>
    internal static long? FreeBytes(string path)
    {
        try
        {
            var full = System.IO.Path.GetFullPath(path);
            var place = OperatingSystem.IsWindows() ? System.IO.Path.GetPathRoot(full) : System.IO.Path.GetDirectoryName(full);
            return place is null ? null : new DriveInfo(place).AvailableFreeSpace;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return null;
        }
    }
}
