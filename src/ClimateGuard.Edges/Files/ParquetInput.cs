using System.Security.Cryptography;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Parquet;

namespace ClimateGuard.Edges.Files;

/// <summary>Readings from Parquet: the columns of the CSV, a row group in memory at a time.</summary>
internal sealed class ParquetInput : ReadingsInput
{
    private const int MostRowsInGroup = 5_000_000;
    private const int MostRowsBeside = 1_000_000;

    private readonly string path;
    private readonly ParquetReader reader;
    private readonly string sha256;
    private readonly ParquetRows rows;
    private readonly long all;
    private ParquetGroup group = new();
    private ParquetGroup ahead = new();
    private Task reading = Task.CompletedTask;
    private int aheadOf = -1;
    private int groups;
    private int inGroup;
    private long read;

    private ParquetInput(string path, ParquetReader reader, string sha256, Cell cell)
    {
        this.path = path;
        this.reader = reader;
        this.sha256 = sha256;
        rows = new ParquetRows(cell);
        all = reader.RowGroups.Sum(one => one.RowCount);
        Judged = ParquetGroup.IsJudged(path, reader.Schema);
    }

    public override bool Judged { get; }

    public override double Share => all == 0 ? 1 : (double)read / all;

    public override long WithoutValue => rows.WithoutValue;

    public override InputPlace Place => new(read, read, sha256);

    /// <summary>Whether the file begins as Parquet files do.</summary>
    public static bool IsParquet(string path)
    {
        try
        {
            using var file = File.OpenRead(path);
            Span<byte> head = stackalloc byte[4];
            return file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) == head.Length && head.SequenceEqual("PAR1"u8);
        }
        catch (Exception broken) when (broken is IOException or UnauthorizedAccessException)
        {
            // The reader that comes next says what is wrong.
            return false;
        }
    }

    public static async ValueTask<ReadingsInput> OpenParquetAsync(string path, Cell cell, CancellationToken cancellation)
    {
        try
        {
            string sha256;
            await using (var file = File.OpenRead(path))
            {
                sha256 = Convert.ToHexStringLower(await SHA256.HashDataAsync(file, cancellation));
            }

            return new ParquetInput(path, await ParquetReader.CreateAsync(path, cancellationToken: cancellation), sha256, cell);
        }
        catch (Exception broken) when (broken is not (OperationCanceledException or UnreadableFileException))
        {
            throw Damaged(path, 0, broken);
        }
    }

    public override async ValueTask<bool> ReadAsync(InputBatch batch, long upTo, CancellationToken cancellation)
    {
        batch.Clear();
        while (Wants(batch, upTo) && (inGroup < group.Count || await NextGroupAsync(cancellation)))
        {
            Fill(batch, upTo);
        }

        return batch.Count > 0 || batch.Problem is not null;
    }

    private bool Wants(InputBatch batch, long upTo) => !batch.Full && batch.Problem is null && read < upTo;

    private void Fill(InputBatch batch, long upTo)
    {
        while (inGroup < group.Count && Wants(batch, upTo))
        {
            read++;
            batch.Problem = rows.Read(group, inGroup++, out var row) is { } problem ? $"{path}: row {read}: {problem}" : null;
            if (batch.Problem is null && !double.IsNaN(row.Value))
            {
                batch.Add(row);
            }
        }
    }

    protected override void Dispose(bool disposing)
    {
        // What is still being read must not find the file closed under it.
        reading.ContinueWith(static done => done.Exception, TaskScheduler.Default).Wait();
        reader.DisposeAsync().AsTask().GetAwaiter().GetResult();
    }

    private static UnreadableFileException Damaged(string path, long row, Exception broken) =>
        new($"{path}: cannot be read as Parquet after row {row}: {broken.Message}", broken);

    private async ValueTask<bool> NextGroupAsync(CancellationToken cancellation)
    {
        do
        {
            if (groups == reader.RowGroupCount)
            {
                return false;
            }

            try
            {
                await (aheadOf == groups ? reading : ReadGroupAsync(groups, cancellation));
                (group, ahead, inGroup) = (ahead, group, 0);
                groups++;
                ReadAhead(cancellation);
            }
            catch (Exception broken) when (broken is not (OperationCanceledException or UnreadableFileException))
            {
                throw Damaged(path, read, broken);
            }
        }
        while (group.Count == 0);
        return true;
    }

    // The next row group is unpacked beside the work on this one, unless two of them would be too much to hold.
    private void ReadAhead(CancellationToken cancellation)
    {
        if (groups < reader.RowGroupCount && group.Count <= MostRowsBeside && reader.RowGroups[groups].RowCount <= MostRowsBeside)
        {
            aheadOf = groups;
            reading = Task.Run(() => ReadGroupAsync(aheadOf, cancellation), cancellation);
        }
    }

    private async Task ReadGroupAsync(int index, CancellationToken cancellation)
    {
        using var next = reader.OpenRowGroupReader(index);
        if (next.RowCount > MostRowsInGroup)
        {
            throw new UnreadableFileException(
                $"{path}: row group {index + 1} has {next.RowCount} rows; at most {MostRowsInGroup} are read at once: write it in smaller row groups.");
        }

        await ahead.ReadAsync(next, reader.Schema, Judged, cancellation);
    }
}
