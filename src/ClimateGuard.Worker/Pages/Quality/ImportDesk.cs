using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Components.Forms;

namespace ClimateGuard.Worker.Pages.Quality;

/// <summary>Takes in what the quality engineer uploads on the page: previewed, kept and refused as the same file would be over HTTP.</summary>
internal sealed class ImportDesk(ResultsDesk results, DeviceShelf shelf, CellLease lease)
{
    /// <summary>A mapping is a page of text at most.</summary>
    public const int MostMappingBytes = 256 << 10;

    /// <summary>The devices whose mapping is saved.</summary>
    public IReadOnlyList<string> Devices() => shelf.Names();

    /// <summary>Says what a file holds, or keeps it.</summary>
    public async Task<ResultsAnswer> TakeAsync(ReadOnlyMemory<byte> file, string device, bool preview, CancellationToken cancellation)
    {
        if (lease.Refusal is { } refusal && !preview)
        {
            return new ResultsRefused([refusal.TrimEnd('.')]);
        }

        try
        {
            return await Task.Run(() => results.TakeAsync(file, device.Length > 0 ? device : null, preview, cancellation), cancellation);
        }
        catch (Exception failure) when (failure is StoreUnavailableException or IOException)
        {
            return new ResultsRefused([$"The ledger could not be reached: {failure.Message.TrimEnd('.')}; try again later"]);
        }
    }

    /// <summary>Saves the mapping of a device; the name of the device, or why nothing was saved.</summary>
    public (string? Device, IReadOnlyList<string> Problems) SaveMapping(ReadOnlySpan<byte> json)
    {
        if (lease.Refusal is { } refusal)
        {
            return (null, [refusal.TrimEnd('.')]);
        }

        var (mapping, problems) = DeviceMappingReader.Read(json);
        problems = mapping is null ? problems : shelf.Save(mapping.Device, json);
        return (problems.Count == 0 ? mapping!.Device : null, problems);
    }

    /// <summary>The bytes of an uploaded file; null when it is larger than allowed.</summary>
    public static async Task<byte[]?> ReadAsync(IBrowserFile file, int most, CancellationToken cancellation)
    {
        if (file.Size > most)
        {
            return null;
        }

        await using var stream = file.OpenReadStream(most, cancellation);
        using var bytes = new MemoryStream();
        await stream.CopyToAsync(bytes, cancellation);
        return bytes.ToArray();
    }
}
