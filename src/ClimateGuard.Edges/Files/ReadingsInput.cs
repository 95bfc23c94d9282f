using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>A file of readings, CSV (plain or gzip) or Parquet, told by its first bytes; read in batches.</summary>
public abstract class ReadingsInput : IDisposable
{
    /// <summary>Whether the rows carry the judgement of a store.</summary>
    public abstract bool Judged { get; }

    /// <summary>How much of the file was read, in [0, 1].</summary>
    public abstract double Share { get; }

    /// <summary>How many rows had no value.</summary>
    public abstract long WithoutValue { get; }

    /// <summary>How far the file was read, with what makes the part before known again.</summary>
    public abstract InputPlace Place { get; }

    /// <summary>Opens a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="cell">The cell that knows the sensors.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="UnreadableFileException">It cannot be read, or its columns are not those of readings.</exception>
    public static async ValueTask<ReadingsInput> OpenAsync(string path, Cell cell, CancellationToken cancellation) =>
        ParquetInput.IsParquet(path) ? await ParquetInput.OpenParquetAsync(path, cell, cancellation) : new CsvInput(path, cell);

    /// <summary>Reads rows until the batch is full, a row is bad, the file ends or a place is reached.</summary>
    /// <param name="batch">Emptied and filled.</param>
    /// <param name="upTo">The <see cref="InputPlace.Offset"/> at which to stop.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <returns>False when nothing is left before that place.</returns>
    /// <exception cref="UnreadableFileException">The file cannot be read on.</exception>
    public abstract ValueTask<bool> ReadAsync(InputBatch batch, long upTo, CancellationToken cancellation);

    /// <inheritdoc/>
    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Closes the file.</summary>
    protected abstract void Dispose(bool disposing);
}

/// <summary>How far a file was read.</summary>
/// <param name="Offset">Bytes of the unpacked text, or rows of a Parquet file.</param>
/// <param name="Line">Number of the line or row read last, from 1.</param>
/// <param name="Sha256">Of the text before, or of the whole Parquet file; in hexadecimal digits.</param>
public sealed record InputPlace(long Offset, long Line, string Sha256);

/// <summary>Rows of a file, used again for the next ones.</summary>
/// <param name="most">The most rows.</param>
public sealed class InputBatch(int most)
{
    private readonly TrustedReading[] rows = new TrustedReading[most];

    /// <summary>The rows.</summary>
    public Memory<TrustedReading> Rows => rows.AsMemory(0, Count);

    /// <summary>How many there are.</summary>
    public int Count { get; private set; }

    /// <summary>Whether no further one has room.</summary>
    public bool Full => Count == rows.Length;

    /// <summary>What is wrong with the row after the last one, with its place and what is allowed; null when nothing is.</summary>
    public string? Problem { get; internal set; }

    internal void Clear() => (Count, Problem) = (0, null);

    internal void Add(in TrustedReading row) => rows[Count++] = row;
}
