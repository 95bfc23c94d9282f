using System.Runtime.CompilerServices;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Influx;

/// <summary>The history in InfluxDB, with a spool on disk for the time when it is down.</summary>
/// <remarks>
/// A batch is committed when InfluxDB has it or when it is on disk in the spool. Once something waits there, everything goes that way, so that
/// the order stays. Reading asks InfluxDB alone: what waits is in no series yet, and <see cref="Health"/> says how much that is.
/// </remarks>
public sealed partial class InfluxReadings : IReadingStore, IAsyncDisposable
{
    private static readonly TimeSpan FullPause = TimeSpan.FromMilliseconds(200);

    private readonly InfluxSettings settings;
    private readonly string folder;
    private Cell cell;
    private readonly TimeProvider clock;
    private readonly ILogger log;
    private long[] sensorRows;
    private readonly SemaphoreSlim gate = new(1, 1);
    private readonly Lock noting = new();
    private readonly InfluxQuery query;
    private readonly InfluxWriter writer;
    private readonly InfluxEngine engine;
    private InfluxSeries series;
    private readonly RefusedPoints refused;
    private readonly List<KeptReading> rows = [];
    private readonly List<KeptMessage> kept = [];
    private Spool? spool;
    private SpoolDrain? drain;
    private InfluxHealth health;
    private int closed;
    private int messageCount = Random.Shared.Next(500_000);

    private InfluxReadings(InfluxSettings settings, string folder, Cell cell, TimeProvider clock, ILogger log)
    {
        (this.settings, this.folder, this.cell, this.clock, this.log) = (settings, folder, cell, clock, log);
        sensorRows = Numbered(cell);
        var token = new InfluxToken(settings);
        query = new InfluxQuery(settings, token);
        writer = new InfluxWriter(settings, token);
        refused = new RefusedPoints(folder, clock);
        engine = new InfluxEngine(settings, query, writer, cell.Id, refused);
        series = new InfluxSeries(query, cell);
        health = new InfluxHealth(0, 0, null, null, 0, 0, Limit, null, false, 0);
    }

    private static long[] Numbered(Cell cell) => [.. Enumerable.Range(0, cell.Sensors.Count).Select(n => (long)n)];

    private static void CheckNames(Cell cell)
    {
        foreach (var name in cell.Sensors.Select(sensor => sensor.Id).Prepend(cell.Id))
        {
            LineBatch.Tag(name);
        }
    }

    private long Limit => (long)settings.SpoolMegabytes << 20;

    /// <summary>Opens the way to InfluxDB; it need not answer yet.</summary>
    /// <param name="settings">Where it is.</param>
    /// <param name="storageFolder">The folder of the store; the spool is <c>influx-spool</c> in it.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="clock">For the time of spooling.</param>
    /// <param name="log">Told when InfluxDB falls silent, of each try and of the end of it.</param>
    /// <exception cref="ArgumentException">The settings, or a name of the cell, cannot be used.</exception>
    public static InfluxReadings Open(InfluxSettings settings, string storageFolder, Cell cell, TimeProvider clock, ILogger log)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentException.ThrowIfNullOrWhiteSpace(storageFolder);
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(log);
        if (settings.Problems() is [var problem, ..])
        {
            throw new ArgumentException(problem, nameof(settings));
        }

        CheckNames(cell);
        return new InfluxReadings(settings, Path.Combine(storageFolder, "influx-spool"), cell, clock, log);
    }

    /// <summary>Takes the names of sensors from a changed cell, for the batches that follow; not while a batch is being written.</summary>
    /// <param name="next">The cell, with the same id.</param>
    /// <exception cref="ArgumentException">A name of the cell cannot be used; the cell before stays in force.</exception>
    public void UseCell(Cell next)
    {
        ArgumentNullException.ThrowIfNull(next);
        CheckNames(next);
        (cell, sensorRows, series) = (next, Numbered(next), new InfluxSeries(query, next));
    }

    /// <summary>Begins to bring in what an earlier run left in the spool. Only for the worker that decides: two must not write at once.</summary>
    /// <exception cref="StoreUnavailableException">The spool cannot be opened.</exception>
    public async Task StartAsync(CancellationToken cancellation)
    {
        await gate.WaitAsync(cancellation);
        try
        {
            Start();
        }
        finally
        {
            gate.Release();
        }
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentException">A reading names a sensor the cell has not, or carries no number.</exception>
    /// <exception cref="StoreUnavailableException">InfluxDB is down and the spool could not be written.</exception>
    public async ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        if (batch.IsEmpty)
        {
            return;
        }

        await gate.WaitAsync(cancellation);
        try
        {
            rows.Clear();
            kept.Clear();
            AddInOrder(batch.Span);
            await CommitAsync(cancellation);
        }
        finally
        {
            gate.Release();
        }
    }

    /// <inheritdoc/>
    /// <exception cref="StoreUnavailableException">InfluxDB is down and the spool could not be written.</exception>
    public async ValueTask KeepUnreadableAsync(
        IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(messages);
        cancellation.ThrowIfCancellationRequested();
        if (messages.Count == 0)
        {
            return;
        }

        await gate.WaitAsync(cancellation);
        try
        {
            rows.Clear();
            kept.Clear();
            foreach (var (arrivedAt, message) in messages)
            {
                messageCount = (messageCount + 1) % (int)LineBatch.NanosecondsInMillisecond;
                kept.Add(new KeptMessage((arrivedAt.ToUnixTimeMilliseconds() * LineBatch.NanosecondsInMillisecond) + messageCount, message));
            }

            await CommitAsync(cancellation);
        }
        finally
        {
            gate.Release();
        }
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">The points are outside [2, 20 000].</exception>
    /// <exception cref="ArgumentException">The sensor is not known, or the window does not begin before it ends.</exception>
    /// <exception cref="StoreUnavailableException">InfluxDB gives no usable answer.</exception>
    public async ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(sensorId);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, 20_000);
        var window = SeriesReader.Window.Between(from, to);
        try
        {
            return await series.ReadAsync(sensorId, window, points, cancellation);
        }
        catch (InfluxFaultException fault)
        {
            throw Unread(fault);
        }
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentException">The sensor is not known, or the window does not begin before it ends.</exception>
    /// <exception cref="StoreUnavailableException">InfluxDB gives no usable answer.</exception>
    public async IAsyncEnumerable<StoredReading> RowsAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, [EnumeratorCancellation] CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(sensorId);
        var window = SeriesReader.Window.Between(from, to);
        await using var found = series.RowsAsync(sensorId, window, cancellation).GetAsyncEnumerator(cancellation);
        while (true)
        {
            try
            {
                if (!await found.MoveNextAsync())
                {
                    yield break;
                }
            }
            catch (InfluxFaultException fault)
            {
                throw Unread(fault);
            }

            yield return found.Current;
        }
    }

    /// <summary>The newest unreadable messages, newest first.</summary>
    /// <param name="most">At most so many, in [1, 20 000].</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is outside its range.</exception>
    /// <exception cref="StoreUnavailableException">InfluxDB gives no usable answer.</exception>
    public async ValueTask<IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)>> NewestUnreadableAsync(
        int most, CancellationToken cancellation)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(most, 20_000);
        try
        {
            return await series.UnreadableAsync(most, cancellation);
        }
        catch (InfluxFaultException fault)
        {
            throw Unread(fault);
        }
    }

    /// <summary>How the way into InfluxDB stands. Cheap; may be asked at any time from any thread.</summary>
    public InfluxHealth Health()
    {
        var state = Volatile.Read(ref spool)?.State ?? default;
        return Volatile.Read(ref health) with
        {
            SpooledBatches = state.Batches,
            SpooledBytes = state.Bytes,
            OldestSpooled = state.Oldest,
            RefusedPoints = refused.Count,
        };
    }

    /// <summary>Ends the draining. What waits stays on disk for the next start.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref closed, 1) == 1)
        {
            return;
        }

        await gate.WaitAsync();
        if (drain is not null)
        {
            await drain.DisposeAsync();
        }

        spool?.Dispose();
        writer.Dispose();
        query.Dispose();
        gate.Dispose();
    }
}
