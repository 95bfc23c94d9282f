using System.Globalization;
using System.Runtime.CompilerServices;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The history in SQLite: what came in of late in <c>readings.db</c>, the rest packed in a file a month, <c>history-YYYY-MM.db</c>.</summary>
/// <remarks>
/// A batch is one row of a log, in the order of arrival: written by sensor, a thousand sensors would touch a thousand pages. What lies in the log
/// is in memory too, and is packed by sensor into the files of its months every hour or every 131 072 readings, with the aggregates of each minute
/// and quarter of an hour. One connection writes, for one caller at a time; reading has connections of its own and never waits for the writer.
/// SQLite knows no waiting without a thread, so writing runs on the caller's thread, packing and reading on the pool.
/// </remarks>
public sealed partial class SqliteReadings : IReadingStore, IDisposable
{
    private const string Unwritten =
        "Nothing was lost: nothing of this batch was written, and messages not yet acknowledged stay with the broker and come again.";

    private readonly Lock writing = new();
    private readonly SqliteFile file;
    private readonly TimeProvider clock;
    private readonly ILogger log;
    private readonly SqliteStorage storage;
    private readonly LooseMemory memory = new();
    private readonly SegmentShelf segments;
    private readonly HistoryPacker packer;
    private readonly ReadingWriter writer;
    private readonly UnreadableShelf shelf;
    private readonly string readerConnection;
    private HistoryHealth health;
    private Task packing = Task.CompletedTask;
    private long packAgainAt = long.MinValue;
    private StoreCheck newestCheck = StoreCheck.Whole;

    private SqliteReadings(SqliteFile file, SqliteStorage storage, TimeProvider clock, ILogger log)
    {
        this.file = file;
        this.clock = clock;
        this.storage = storage;
        this.log = log;
        segments = new SegmentShelf(storage, clock, log);
        segments.Refresh();
        packer = new HistoryPacker(file.Writer, writing, memory, segments);
        writer = new ReadingWriter(file.Writer, memory, segments);
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

    /// <summary>What was found at the opening of <c>readings.db</c>; the check is that of the newest month too.</summary>
    public StoreOpening Opening => file.Opening with { Check = newestCheck == StoreCheck.Partial ? newestCheck : file.Opening.Check };

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
            var readings = new SqliteReadings(file, storage, clock, log);
            readings.Begin(cell);
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

        return WaitForPacking() is { IsCompleted: false } behind ? AppendAfterAsync(behind, batch, cancellation) : AppendNow(batch);
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
        return Read(reader => History(reader, sensorId, cancellation).Points(window, points), cancellation);
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
            var (page, next) = await Read(
                reader => SeriesReader.Rows(reader, History(reader, sensorId, cancellation), sensorId, window), cancellation);
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
        return Read(reader => SeriesReader.Corrected(reader, History(reader, sensorId, cancellation), window, most), cancellation);
    }

    /// <summary>The aggregates of a sensor whose periods begin in a window, in time order.</summary>
    /// <param name="sensorId">Id of the sensor.</param>
    /// <param name="from">Begin, inclusive.</param>
    /// <param name="to">End, exclusive.</param>
    /// <param name="level">Minutes or quarters of an hour.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentException">The sensor is not known, the window does not begin before it ends, or the level is that of raw readings.</exception>
    public ValueTask<IReadOnlyList<SeriesAggregate>> AggregatesAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, HistoryLevel level, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(sensorId);
        ArgumentOutOfRangeException.ThrowIfEqual(level, HistoryLevel.Raw);
        var window = SeriesReader.Window.Between(from, to);
        return Read(reader => History(reader, sensorId, cancellation).Aggregates(window, level), cancellation);
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
    public HistoryHealth Health() => Volatile.Read(ref health) with
    {
        Bytes = SqliteFile.BytesOf(file.Path) + segments.Bytes(),
        FreeBytes = SqliteFault.FreeBytes(file.Path),
        Damaged = segments.Damaged,
    };

    /// <summary>Closes the files. What was committed is there.</summary>
    public void Dispose()
    {
        Task.WhenAny(packing).GetAwaiter().GetResult();
        lock (writing)
        {
            using (var pooled = new SqliteConnection(readerConnection))
            {
                SqliteConnection.ClearPool(pooled);
            }

            segments.Close();
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
                reader.OpenPatiently();
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
