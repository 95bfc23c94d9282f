using System.Globalization;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>A ledger opened to be read only, also while a worker writes it; it makes no file and changes none.</summary>
public sealed class SqliteLedgerView : IDisposable
{
    private const string Untouched = "What is on disk was not touched.";

    private readonly SqliteConnection reader;

    private SqliteLedgerView(string path, SqliteConnection reader)
    {
        Path = path;
        this.reader = reader;
    }

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>The ledger of a folder of the store.</summary>
    /// <param name="storage">Where.</param>
    /// <exception cref="StoreUnavailableException">It is not there, cannot be read, or is of a release before the chain.</exception>
    public static SqliteLedgerView Open(SqliteStorage storage)
    {
        ArgumentNullException.ThrowIfNull(storage);
        var path = System.IO.Path.Combine(System.IO.Path.GetFullPath(storage.Folder), LedgerSchema.FileName);
        if (!File.Exists(path))
        {
            throw new StoreUnavailableException(
                $"There is no ledger at {path}. Name the folder of the store in Storage:Path; the worker makes the ledger when it starts. {Untouched}");
        }

        var view = Open(path);
        try
        {
            view.RefuseOlderShapes();
            return view;
        }
        catch
        {
            view.Dispose();
            throw;
        }
    }

    /// <summary>Id of the cell whose ledger it is.</summary>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public string CellId => Reading(() => reader.Ask("SELECT cell FROM chain") as string ?? "");

    /// <summary>How many of the first lines were written before the chain and got their hashes later.</summary>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public long OlderLines => Reading(() => Convert.ToInt64(reader.Ask("SELECT older FROM chain"), CultureInfo.InvariantCulture));

    /// <summary>As <see cref="ILedgerStore.ReadAsync"/>.</summary>
    /// <param name="afterSeq">Those after this number; 0 begins at the first.</param>
    /// <param name="most">At most so many, in [1, 10 000].</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public Task<IReadOnlyList<LedgerEntry>> ReadAsync(long afterSeq, int most, CancellationToken cancellation)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(afterSeq);
        RefuseCount(most);
        return Task.Run(() => Reading(() => LedgerRows.After(reader, afterSeq, most)), cancellation);
    }

    /// <summary>As <see cref="ILedgerStore.ReadBackAsync"/>.</summary>
    /// <param name="kind">Only this kind, or null for all.</param>
    /// <param name="machine">Only this machine, or null for all.</param>
    /// <param name="beforeSeq">Those before this number.</param>
    /// <param name="most">At most so many, in [1, 10 000].</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public Task<IReadOnlyList<LedgerEntry>> ReadBackAsync(
        string? kind, string? machine, long beforeSeq, int most, CancellationToken cancellation)
    {
        RefuseCount(most);
        return Task.Run(() => Reading(() => LedgerRows.Back(reader, kind, machine, beforeSeq, most)), cancellation);
    }

    /// <summary>All lines in order as one picture: what is written meanwhile does not show.</summary>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public IEnumerable<LedgerEntry> AsOfNow()
    {
        using var picture = Reading(() => reader.BeginTransaction(deferred: true));
        // From before the first number, so that a line slipped in below it shows too.
        var after = long.MinValue;
        IReadOnlyList<LedgerEntry> page;
        do
        {
            page = Reading(() => LedgerRows.After(reader, after, 2_000));
            foreach (var entry in page)
            {
                yield return entry;
                after = entry.Seq;
            }
        }
        while (page.Count > 0);
    }

    /// <inheritdoc/>
    public void Dispose() => reader.Dispose();

    internal static SqliteLedgerView Open(string path)
    {
        var connection = new SqliteConnection(
            new SqliteConnectionStringBuilder { DataSource = path, Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ToString());
        try
        {
            connection.Open();
            return new SqliteLedgerView(path, connection);
        }
        catch (SqliteException fault)
        {
            connection.Dispose();
            throw SqliteFault.Explain(fault, "read the ledger", path, Untouched);
        }
    }

    private static void RefuseCount(int most)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(most, LedgerReading.MostLines);
    }

    private void RefuseOlderShapes()
    {
        var shape = Reading(() => SqliteSchema.VersionOf(reader));
        if (shape < LedgerSchema.ChainedFrom)
        {
            throw new StoreUnavailableException(
                $"{Path} is of a release before the chain. Start the worker once on it: that chains the lines it holds. {Untouched}");
        }
    }

    private T Reading<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (SqliteException fault)
        {
            throw SqliteFault.Explain(fault, "read the ledger", Path, Untouched);
        }
    }
}
