using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Parquet;

namespace ClimateGuard.Edges.Files;

/// <summary>Readings as Parquet: the columns of the CSV, typed; names in dictionaries, Zstandard, row groups of bounded size.</summary>
internal sealed class ParquetOutput : ReadingsOutput
{
    /// <summary>The most rows of a row group, about 10 MB in memory.</summary>
    public const int RowsInGroup = 200_000;

    private readonly ParquetWriter writer;
    private readonly DateTime[] times = new DateTime[RowsInGroup];
    private readonly string[] sensors = new string[RowsInGroup];
    private readonly double?[] values = new double?[RowsInGroup];
    private readonly string[] units = new string[RowsInGroup];
    private readonly double[] raws = new double[RowsInGroup];
    private readonly string[] trusts = new string[RowsInGroup];
    private readonly string[] reasons = new string[RowsInGroup];
    private int count;

    private ParquetOutput(ParquetWriter writer) => this.writer = writer;

    public static async ValueTask<ParquetOutput> BeginAsync(Stream stream)
    {
        var options = new ParquetOptions
        {
            CompressionMethod = CompressionMethod.Zstd,
            CompressionLevel = System.IO.Compression.CompressionLevel.Optimal,
        };
        foreach (var name in (ReadOnlySpan<string>)["sensor", "unit", "trust", "reason"])
        {
            options.ColumnEncodingHints[name] = EncodingHint.Dictionary;
        }

        return new ParquetOutput(await ParquetWriter.CreateAsync(ParquetColumns.Schema, stream, options));
    }

    public override async ValueTask AddAsync(Sensor sensor, StoredReading row, CancellationToken cancellation)
    {
        times[count] = DateTimeOffset.FromUnixTimeMilliseconds(row.EpochMilliseconds).UtcDateTime;
        sensors[count] = sensor.Id;
        values[count] = row.Trust == Trust.Quarantined ? null : row.Value;
        units[count] = SensorUnits.ByQuantity[sensor.Quantity][0];
        raws[count] = row.Raw;
        trusts[count] = TrustWords.Of(row.Trust);
        reasons[count] = TrustWords.Of(row.Reason);
        if (++count == RowsInGroup)
        {
            await WriteGroupAsync(cancellation);
        }
    }

    public override async ValueTask FinishAsync(CancellationToken cancellation)
    {
        if (count > 0)
        {
            await WriteGroupAsync(cancellation);
        }

        await writer.DisposeAsync();
    }

    public override ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private async ValueTask WriteGroupAsync(CancellationToken cancellation)
    {
        using var group = writer.CreateRowGroup();
        await group.WriteAsync<DateTime>(ParquetColumns.Time, times.AsMemory(0, count), cancellationToken: cancellation);
        await group.WriteAsync(ParquetColumns.Sensor, sensors[..count]);
        await group.WriteAsync<double>(ParquetColumns.Value, (ReadOnlyMemory<double?>)values.AsMemory(0, count), cancellationToken: cancellation);
        await group.WriteAsync(ParquetColumns.Unit, units[..count]);
        await group.WriteAsync<double>(ParquetColumns.Raw, (ReadOnlyMemory<double>)raws.AsMemory(0, count), cancellationToken: cancellation);
        await group.WriteAsync(ParquetColumns.Trust, trusts[..count]);
        await group.WriteAsync(ParquetColumns.Reason, reasons[..count]);
        count = 0;
    }
}
