using System.Security.Cryptography;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>Readings from CSV.</summary>
internal sealed class CsvInput : ReadingsInput
{
    private readonly IncrementalHash digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly ReadingsFileReader reader;

    public CsvInput(string path, Cell cell) => reader = ReadingsFileReader.Open(path, cell, digest);

    public override bool Judged => reader.Judged;

    public override double Share => reader.Share;

    public override long WithoutValue => reader.WithoutValue;

    public override InputPlace Place => new(reader.Offset, reader.Line, Convert.ToHexStringLower(digest.GetCurrentHash()));

    public override ValueTask<bool> ReadAsync(InputBatch batch, long upTo, CancellationToken cancellation)
    {
        batch.Clear();
        cancellation.ThrowIfCancellationRequested();
        while (!batch.Full && batch.Problem is null && reader.Offset < upTo && reader.Read(out var row, out var problem))
        {
            batch.Problem = problem;
            if (problem is null)
            {
                batch.Add(row);
            }
        }

        return ValueTask.FromResult(batch.Count > 0 || batch.Problem is not null);
    }

    protected override void Dispose(bool disposing)
    {
        reader.Dispose();
        digest.Dispose();
    }
}
