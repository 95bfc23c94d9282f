using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>A file of readings being written: CSV, CSV in gzip, or Parquet, told by its ending.</summary>
internal abstract class ReadingsOutput : IAsyncDisposable
{
    private static readonly string[] Endings = [".csv", ".csv.gz", ".parquet"];

    /// <summary>Whether the ending of the name says what to write.</summary>
    public static bool CanWrite(string path) => EndingOf(path) is not null;

    /// <summary>Begins to write.</summary>
    /// <param name="stream">Where to; stays open.</param>
    /// <param name="path">The name whose ending counts.</param>
    public static async ValueTask<ReadingsOutput> BeginAsync(Stream stream, string path) => EndingOf(path) switch
    {
        ".parquet" => await ParquetOutput.BeginAsync(stream),
        ".csv.gz" => new CsvOutput(stream, packed: true),
        _ => new CsvOutput(stream, packed: false),
    };

    /// <summary>Writes a row.</summary>
    public abstract ValueTask AddAsync(Sensor sensor, StoredReading row, CancellationToken cancellation);

    /// <summary>Writes what is left and the end.</summary>
    public abstract ValueTask FinishAsync(CancellationToken cancellation);

    public abstract ValueTask DisposeAsync();

    private static string? EndingOf(string path) => Array.Find(Endings, ending => path.EndsWith(ending, StringComparison.OrdinalIgnoreCase));
}
