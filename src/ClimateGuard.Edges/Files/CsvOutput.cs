using System.Globalization;
using System.IO.Compression;
using System.Text;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>Readings as CSV: <c>time,sensor,value,unit,raw,trust,reason</c>.</summary>
/// <remarks>
/// A row that was set aside has a raw value and an empty value: who knows the first four columns alone sees a missing value, never a bad
/// one. Times in UTC with milliseconds; numbers in the fewest digits that give the same number again. No field needs quotes (RFC 4180).
/// </remarks>
internal sealed class CsvOutput : ReadingsOutput
{
    private const int FlushAt = 64 * 1024;
    private const int RowWithoutName = 256;

    private readonly Stream target;
    private byte[] buffer = new byte[2 * FlushAt];
    private int count;

    public CsvOutput(Stream stream, bool packed)
    {
        target = packed ? new GZipStream(stream, CompressionLevel.Optimal, leaveOpen: true) : stream;
        Write("time,sensor,value,unit,raw,trust,reason\n");
    }

    public override async ValueTask AddAsync(Sensor sensor, StoredReading row, CancellationToken cancellation)
    {
        Write(sensor, row);
        if (count >= FlushAt)
        {
            await FlushAsync(cancellation);
        }
    }

    public override async ValueTask FinishAsync(CancellationToken cancellation)
    {
        await FlushAsync(cancellation);
        if (target is GZipStream)
        {
            await target.DisposeAsync();
        }
    }

    public override ValueTask DisposeAsync() => target is GZipStream ? target.DisposeAsync() : ValueTask.CompletedTask;

    private void Write(Sensor sensor, StoredReading row)
    {
        if (buffer.Length - count < sensor.Id.Length + RowWithoutName)
        {
            Array.Resize(ref buffer, count + sensor.Id.Length + RowWithoutName);
        }

        DateTimeOffset.FromUnixTimeMilliseconds(row.EpochMilliseconds).UtcDateTime.TryFormat(
            buffer.AsSpan(count), out var written, "yyyy-MM-dd'T'HH:mm:ss.fff'Z',", CultureInfo.InvariantCulture);
        count += written;
        Write(sensor.Id);
        Write(",");
        if (row.Trust != Trust.Quarantined)
        {
            Write(row.Value);
        }

        Write(",");
        Write(SensorUnits.ByQuantity[sensor.Quantity][0]);
        Write(",");
        Write(row.Raw);
        Write(",");
        Write(TrustWords.Of(row.Trust));
        Write(",");
        Write(TrustWords.Of(row.Reason));
        Write("\n");
    }

    private void Write(string text) => count += Encoding.UTF8.GetBytes(text, buffer.AsSpan(count));

    private void Write(double number)
    {
        number.TryFormat(buffer.AsSpan(count), out var written, default, CultureInfo.InvariantCulture);
        count += written;
    }

    private async ValueTask FlushAsync(CancellationToken cancellation)
    {
        await target.WriteAsync(buffer.AsMemory(0, count), cancellation);
        count = 0;
    }
}
