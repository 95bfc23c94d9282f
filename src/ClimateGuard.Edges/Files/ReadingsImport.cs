using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>Brings files of readings into a store; what was stopped goes on where it ended.</summary>
/// <remarks>
/// Rows that carry the judgement of a store are written as they are; others are judged in the order of the file by event time, as if each had
/// arrived when it was taken. To go on, the rows before are read and judged again but not written: so the judgement is the same as without a
/// stop. A worker may run beside it: between two batches the store is left alone for a moment.
/// </remarks>
/// <param name="store">The store.</param>
/// <param name="cell">The cell that knows the sensors.</param>
/// <param name="book">How far each file was imported.</param>
/// <param name="clock">For pauses and the pace of notes.</param>
public sealed class ReadingsImport(IReadingStore store, Cell cell, ImportBook book, TimeProvider clock)
{
    private const int RowsInBatch = 10_000;
    private const int MarksTried = 3;

    private static readonly TimeSpan Breath = TimeSpan.FromMilliseconds(5);
    private static readonly TimeSpan NoteEvery = TimeSpan.FromSeconds(1);

    private readonly InputBatch batch = new(RowsInBatch);

    /// <summary>Pass over bad rows, and count and list them, instead of stopping at the first.</summary>
    public bool SkipBad { get; init; }

    /// <summary>Imports a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancellation">Stops after the batch that is being written; the same import goes on later.</param>
    /// <exception cref="UnreadableFileException">The file cannot be read, or its columns are not those of readings.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be written.</exception>
    public async Task<ImportResult> RunAsync(string path, Action<ImportProgress> progress, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(progress);
        var result = new ImportResult(path);
        try
        {
            using var reading = await BeginAsync(path, result, progress, cancellation);
            await WriteRestAsync(reading, result, progress, cancellation);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            result.Stopped = true;
        }

        return result;
    }

    // Opens the file at the place up to which it was imported before, if what stands before that place is still the same.
    private async Task<Open> BeginAsync(
        string path, ImportResult result, Action<ImportProgress> progress, CancellationToken cancellation)
    {
        foreach (var mark in book.Of(path).Take(MarksTried))
        {
            var reading = new Open(await ReadingsInput.OpenAsync(path, cell, cancellation), new SensorTrust(cell)) { Mark = mark };
            try
            {
                while (await reading.Input.ReadAsync(batch, mark.Offset, cancellation))
                {
                    Judge(reading);
                    progress(new ImportProgress("reading again", reading.Input.Share, reading.Input.Place.Line));
                }

                if (reading.Input.Place == mark.Place)
                {
                    result.GoesOnAfterLine = mark.Line;
                    return reading;
                }
            }
            catch (UnreadableFileException)
            {
                // Then it is another file of that name; if not, the first reading from its begin says the same.
            }
            catch
            {
                reading.Dispose();
                throw;
            }

            reading.Dispose();
        }

        return new Open(await ReadingsInput.OpenAsync(path, cell, cancellation), new SensorTrust(cell));
    }

    private async Task WriteRestAsync(
        Open reading, ImportResult result, Action<ImportProgress> progress, CancellationToken cancellation)
    {
        var place = reading.Input.Place;
        var noted = clock.GetTimestamp();
        try
        {
            while (result.Problem is null && await reading.Input.ReadAsync(batch, long.MaxValue, cancellation))
            {
                Judge(reading);
                await store.AppendAsync(batch.Rows, cancellation);
                result.Count(batch, SkipBad);
                result.Problem = SkipBad ? null : batch.Problem;
                place = result.Problem is null ? reading.Input.Place : place;
                progress(new ImportProgress("writing", reading.Input.Share, result.Rows));
                if (clock.GetElapsedTime(noted) > NoteEvery)
                {
                    Note(reading, result.Path, place, done: false);
                    noted = clock.GetTimestamp();
                }

                await Task.Delay(Breath, clock, cancellation);
            }

            result.Done = result.Problem is null;
            place = result.Done ? reading.Input.Place : place;
        }
        finally
        {
            result.WithoutValue = reading.Input.WithoutValue;
            Note(reading, result.Path, place, result.Done);
        }
    }

    private void Judge(Open reading)
    {
        if (reading.Input.Judged)
        {
            return;
        }

        foreach (ref var row in batch.Rows.Span)
        {
            row = reading.Trust.Judge(new Arrival { Reading = row.Raw, ArrivedAt = row.Raw.Time });
        }
    }

    private void Note(Open reading, string path, InputPlace place, bool done)
    {
        if (place.Line <= 1 && !done)
        {
            return;
        }

        var mark = new ImportMark(Path.GetFileName(path), place.Offset, place.Line, place.Sha256, done);
        book.Note(mark, reading.Mark);
        reading.Mark = mark;
    }

    private sealed record Open(ReadingsInput Input, SensorTrust Trust) : IDisposable
    {
        public ImportMark? Mark { get; set; }

        public void Dispose() => Input.Dispose();
    }
}
