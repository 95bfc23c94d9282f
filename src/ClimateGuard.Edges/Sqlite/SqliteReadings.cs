using System.Globalization;
using System.Runtime.CompilerServices;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The history in one SQLite file, <c>readings.db</c>, in the folder of the store.</summary>
/// <remarks>
/// One connection writes, for one caller at a time; reading has connections of its own and never waits for the writer. SQLite knows no
/// waiting without a thread, so writing runs on the caller's thread and reading on the pool.
/// </remarks>
public sealed class SqliteReadings : IReadingStore, IDisposable
{
    private const string Unwritten =
        "Nothing was lost: nothing of this batch was written, and messages not yet acknowledged stay with the broker and come again.";

    private const int RowsInPage = 10_000;

    private readonly Lock writing = new();
    private readonly SqliteFile file;
    private readonly TimeProvider clock;
    private readonly ReadingWriter writer;
    private readonly UnreadableShelf shelf;
    private readonly string readerConnection;
    private HistoryHealth health;

    private SqliteReadings(SqliteFile file, SqliteStorage storage, TimeProvider clock)
    {
        this.file = file;
        this.clock = clock;
        writer = new ReadingWriter(file.Writer);
        shelf = new UnreadableShelf(file.Writer, storage.UnreadableKept);
        readerConnection = new SqliteConnectionStringBuilder
        {
            DataSource = file.Path,
            Mode = SqliteOpenMode.ReadOnly,
            Pooling = true,
            DefaultTimeout = 5,
        }.ToString();
        health = new HistoryHealth(Tally("readings"), Tally("quarantined"), Tally("dropped"), 0, null, null);
    }

    /// <summary>What was found at the opening.</summary>
    public StoreOpening Opening => file.Opening;

    /// <summary>Whether there is a history in a folder.</summary>
    /// <param name="folder">The folder of the store.</param>
    public static bool IsThere(string folder) => File.Exists(Path.Combine(folder, ReadingsSchema.Kind.FileName));

    /// <summary>Opens the history, makes it when it is not there, and sets a damaged file aside.</summary>
    /// <param name="storage">Where and how.</param>
    /// <param name="cell">The cell that gives the numbers of sensors their names.</param>
    /// <param name="clock">For the time of storing.</param>
    /// <param name="log">Told of damage and of a check that was cut short.</param>
    /// <exception cref="StoreUnavailableException">The folder is a file, read-only or full, or a newer release wrote the history.</exception>
    public static SqliteReadings Open(SqliteStorage storage, Cell cell, TimeProvider clock, ILogger log)
    {
        ArgumentNullException.ThrowIfNull(storage);
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(log);
        var file = SqliteFile.Open(storage, ReadingsSchema.Kind, clock, log);
        try
        {
            var readings = new SqliteReadings(file, storage, clock);
            readings.UseCell(cell);
            return readings;
        }
        catch (Exception fault)
        {
            file.Dispose();
            if (fault is SqliteException sqlite)
            {
                throw SqliteFault.Explain(sqlite, "open the history", file.Path, Unwritten);
            }

            throw;
        }
    }

    /// <summary>Takes the names of sensors from a changed cell, for the batches that follow.</summary>
    /// <param name="cell">The cell.</param>
    /// <exception cref="StoreUnavailableException">The names of new sensors could not be written; the cell before stays in force.</exception>
    public void UseCell(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        Write(() => writer.UseCell(cell));
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentException">A reading names a sensor the cell has not, or carries no number.</exception>
    /// <exception cref="StoreUnavailableException">It could not be written; nothing of the batch was.</exception>
    public ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        if (batch.IsEmpty)
        {
            return ValueTask.CompletedTask;
        }

        lock (writing)
        {
            try
            {
                var now = clock.GetUtcNow();
                var (rows, quarantined) = writer.Append(batch.Span, now.ToUnixTimeMilliseconds());
                health = health with { Rows = health.Rows + rows, Quarantined = health.Quarantined + quarantined, LastCommit = now };
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "write the history", file.Path, Unwritten);
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    /// <exception cref="StoreUnavailableException">They could not be written; none was.</exception>
    public ValueTask KeepUnreadableAsync(
        IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(messages);
        cancellation.ThrowIfCancellationRequested();
        if (messages.Count > 0)
        {
            Write(() =>
            {
                var dropped = shelf.Add(messages);
                health = health with { UnreadableDropped = health.UnreadableDropped + dropped, LastCommit = clock.GetUtcNow() };
            });
        }

        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">The points are outside [2, 20 000].</exception>
    /// <exception cref="ArgumentException">The sensor is not known, or the window does not begin before it ends.</exception>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(sensorId);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, 20_000);
        var window = SeriesReader.Window.Between(from, to);
        return Read(reader => SeriesReader.Read(reader, sensorId, window, points, cancellation), cancellation);
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentException">The sensor is not known, or the window does not begin before it ends.</exception>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public async IAsyncEnumerable<StoredReading> RowsAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, [EnumeratorCancellation] CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(sensorId);
        var window = SeriesReader.Window.Between(from, to);
        while (window.From < window.To)
        {
            var (page, next) = await Read(reader => SeriesReader.Rows(reader, sensorId, window, RowsInPage), cancellation);
            foreach (var row in page)
            {
                yield return row;
            }

            window = window with { From = next };
        }
    }

    /// <summary>The readings of a sensor that were set aside in a window, in time order.</summary>
    /// <param name="sensorId">Id of the sensor.</param>
    /// <param name="from">Begin, inclusive.</param>
    /// <param name="to">End, exclusive.</param>
    /// <param name="most">At most so many, in [1, 20 000].</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentException">The sensor is not known, or a number is outside its range.</exception>
    public ValueTask<IReadOnlyList<QuarantinedReading>> ReadQuarantinedAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int most, CancellationToken cancellation)
    {
        var window = Checked(sensorId, from, to, most);
        return Read(reader => SeriesReader.Quarantined(reader, sensorId, window, most), cancellation);
    }

    /// <summary>The readings of a sensor that were corrected in a window, with their raw values, in time order.</summary>
    /// <inheritdoc cref="ReadQuarantinedAsync"/>
    public ValueTask<IReadOnlyList<CorrectedReading>> ReadCorrectedAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int most, CancellationToken cancellation)
    {
        var window = Checked(sensorId, from, to, most);
        return Read(reader => SeriesReader.Corrected(reader, sensorId, window, most), cancellation);
    }

    /// <summary>The newest unreadable messages, newest first.</summary>
    /// <param name="most">At most so many, in [1, 20 000].</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is outside its range.</exception>
    public ValueTask<IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)>> NewestUnreadableAsync(
        int most, CancellationToken cancellation)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(most, 20_000);
        return Read(reader => UnreadableShelf.Newest(reader, most), cancellation);
    }

    /// <summary>How the history stands. Cheap; may be asked at any time from any thread.</summary>
    public HistoryHealth Health()
    {
        var log = new FileInfo(file.Path + "-wal");
        return Volatile.Read(ref health) with
        {
            Bytes = new FileInfo(file.Path).Length + (log.Exists ? log.Length : 0),
            FreeBytes = SqliteFault.FreeBytes(file.Path),
        };
    }

    /// <summary>Closes the file. What was committed is there.</summary>
    public void Dispose()
    {
        lock (writing)
        {
            using (var pooled = new SqliteConnection(readerConnection))
            {
                SqliteConnection.ClearPool(pooled);
            }

            writer.Dispose();
            file.Dispose();
        }
    }

    private static SeriesReader.Window Checked(string sensorId, DateTimeOffset from, DateTimeOffset to, int most)
    {
        ArgumentException.ThrowIfNullOrEmpty(sensorId);
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(most, 20_000);
        return SeriesReader.Window.Between(from, to);
    }

    private void Write(Action work)
    {
        lock (writing)
        {
            try
            {
                work();
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "write the history", file.Path, Unwritten);
            }
        }
    }

    private ValueTask<T> Read<T>(Func<SqliteConnection, T> read, CancellationToken cancellation) => new(Task.Run(
        () =>
        {
            using var reader = new SqliteConnection(readerConnection);
            try
            {
                reader.Open();
                return read(reader);
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "read the history", file.Path, "What is on disk was not touched.");
            }
        },
        cancellation));

    private long Tally(string column) =>
        Convert.ToInt64(file.Writer.Ask($"SELECT {column} FROM tally"), CultureInfo.InvariantCulture);
}
