using System.Text;
using System.Text.Json;

namespace ClimateGuard.Edges.Influx;

/// <summary>Points that InfluxDB will never take, one JSON object a line in <c>refused.jsonl</c>: kept and counted, never dropped in silence.</summary>
/// <param name="folder">The folder of the spool.</param>
/// <param name="clock">For the time of the refusal.</param>
internal sealed class RefusedPoints(string folder, TimeProvider clock)
{
    private const long MostBytes = 64 << 20;

    /// <summary>The file.</summary>
    public string Path { get; } = System.IO.Path.Combine(folder, "refused.jsonl");

    /// <summary>How many this process added.</summary>
    public long Count { get; private set; }

    /// <summary>Whether the file has grown so long that a person must look first.</summary>
    public bool IsFull => File.Exists(Path) && new FileInfo(Path).Length > MostBytes;

    /// <summary>Adds lines with what InfluxDB said; on return they are on disk.</summary>
    public void Add(IReadOnlyCollection<(string Line, string Reason)> refused)
    {
        Directory.CreateDirectory(folder);
        using var file = new FileStream(Path, FileMode.Append, FileAccess.Write, FileShare.Read);
        foreach (var (line, reason) in refused)
        {
            file.Write(Encoding.UTF8.GetBytes(JsonSerializer.Serialize(
                new { time = clock.GetUtcNow(), reason, line = line.TrimEnd('\n') }, JsonSerializerOptions.Web) + "\n"));
        }

        file.Flush(flushToDisk: true);
        Count += refused.Count;
    }
}
