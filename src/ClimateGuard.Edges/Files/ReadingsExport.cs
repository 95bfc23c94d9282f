using System.Runtime.CompilerServices;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>Writes rows of a store to a file: sensor by sensor in the order of the plant file, each in time order.</summary>
public sealed record ReadingsExport
{
    /// <summary>The file; one that is there is replaced.</summary>
    public required string Path { get; init; }

    /// <summary>The sensors.</summary>
    public required IReadOnlyList<Sensor> Sensors { get; init; }

    /// <summary>Begin, inclusive.</summary>
    public required DateTimeOffset From { get; init; }

    /// <summary>End, exclusive.</summary>
    public required DateTimeOffset To { get; init; }

    /// <summary>Told how far it is: share in [0, 1] and rows written.</summary>
    public Action<double, long> Progress { get; init; } = (_, _) => { };

    /// <summary>Whether the ending of the name says what to write: <c>.csv</c>, <c>.csv.gz</c> or <c>.parquet</c>.</summary>
    public static bool CanWrite(string path) => ReadingsOutput.CanWrite(path);

    /// <summary>Writes the file: first beside it, then in its place, so that it is whole or not there.</summary>
    /// <param name="store">The store.</param>
    /// <param name="cancellation">Stops; then there is no file.</param>
    /// <returns>How many rows it has.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read, or the file not written; what was there before stands as it was.</exception>
    public async Task<ExportCounts> WriteAsync(IReadingStore store, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(store);
        var full = System.IO.Path.GetFullPath(Path);
        var beside = full + $".{Environment.ProcessId}.part";
        try
        {
            var counts = await WriteWholeAsync(store, beside, cancellation);
            File.Move(beside, full, overwrite: true);
            return counts;
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException and not StoreUnavailableException)
        {
            throw new StoreUnavailableException(
                $"Cannot write {full}: {fault.Message.TrimEnd('.')}. Name another file; what was there before stands as it was.", fault);
        }
        finally
        {
            File.Delete(beside);
        }
    }

    private async Task<ExportCounts> WriteWholeAsync(IReadingStore store, string path, CancellationToken cancellation)
    {
        await using var stream = new FileStream(path, FileMode.Create, FileAccess.Write);
        await using var output = await ReadingsOutput.BeginAsync(stream, Path);
        var counts = new long[Enum.GetValues<Trust>().Length];
        var all = 0L;
        for (var i = 0; i < Sensors.Count; i++)
        {
            Progress((double)i / Sensors.Count, all);
            await foreach (var row in InOneOrder(store.RowsAsync(Sensors[i].Id, From, To, cancellation), cancellation))
            {
                await output.AddAsync(Sensors[i], row, cancellation);
                counts[(int)row.Trust]++;
                if (++all % 16_384 == 0)
                {
                    Progress((double)i / Sensors.Count, all);
                }
            }
        }

        await output.FinishAsync(cancellation);
        stream.Flush(flushToDisk: true);
        Progress(1, all);
        return new ExportCounts(counts[(int)Trust.Accepted], counts[(int)Trust.Corrected], counts[(int)Trust.Quarantined]);
    }

    // A store may give the rows of one moment in any order; the same rows must give the same file.
    private static async IAsyncEnumerable<StoredReading> InOneOrder(
        IAsyncEnumerable<StoredReading> rows, [EnumeratorCancellation] CancellationToken cancellation)
    {
        var moment = new List<StoredReading>();
        await foreach (var row in rows.WithCancellation(cancellation))
        {
            if (moment.Count > 0 && moment[0].EpochMilliseconds != row.EpochMilliseconds)
            {
                foreach (var earlier in Sorted(moment))
                {
                    yield return earlier;
                }

                moment.Clear();
            }

            moment.Add(row);
        }

        foreach (var last in Sorted(moment))
        {
            yield return last;
        }
    }

    private static List<StoredReading> Sorted(List<StoredReading> moment)
    {
        if (moment.Count > 1)
        {
            moment.Sort((a, b) => (a.Trust == Trust.Quarantined).CompareTo(b.Trust == Trust.Quarantined) is not 0 and var set ? set
                : a.Raw.CompareTo(b.Raw) is not 0 and var raw ? raw
                : string.CompareOrdinal(TrustWords.Of(a.Reason), TrustWords.Of(b.Reason)));
        }

        return moment;
    }
}

/// <summary>How many rows were written.</summary>
/// <param name="Accepted">As they came.</param>
/// <param name="Corrected">After a correction.</param>
/// <param name="Quarantined">Set aside.</param>
public sealed record ExportCounts(long Accepted, long Corrected, long Quarantined)
{
    /// <summary>All rows.</summary>
    public long All => Accepted + Corrected + Quarantined;
}
