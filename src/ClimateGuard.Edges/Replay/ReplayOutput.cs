namespace ClimateGuard.Edges.Replay;

/// <summary>The lines of a replay: beside the file until they are whole, then in its place.</summary>
internal sealed class ReplayOutput : IDisposable
{
    private readonly string path;
    private readonly FileStream part;

    private ReplayOutput(string path, FileStream part, long lines)
    {
        this.path = path;
        this.part = part;
        Lines = lines;
    }

    public long Lines { get; private set; }

    private string PartPath => path + ".part";

    private string CheckpointPath => path + ".checkpoint";

    /// <summary>Begins, or goes on where the same replay was stopped.</summary>
    public static (ReplayOutput Output, ReplayCheckpoint? From) Open(string path, string question)
    {
        var full = Path.GetFullPath(path);
        var found = ReplayCheckpoint.Find(full + ".checkpoint", question);
        var part = new FileStream(full + ".part", FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read, 1 << 16);
        found = found is not null && part.Length >= found.Bytes && found.States() is not null ? found : null;
        part.SetLength(found?.Bytes ?? 0);
        part.Position = part.Length;
        return (new ReplayOutput(full, part, found?.Lines ?? 0), found);
    }

    public void Write(byte[] line)
    {
        part.Write(line);
        Lines++;
    }

    /// <summary>Brings what was written so far to the disk, then notes it.</summary>
    public void Keep(Func<long, long, ReplayCheckpoint> checkpoint)
    {
        part.Flush(flushToDisk: true);
        checkpoint(part.Length, Lines).Write(CheckpointPath);
    }

    /// <summary>Puts the file in its place.</summary>
    public void Finish()
    {
        part.Flush(flushToDisk: true);
        part.Dispose();
        File.Move(PartPath, path, overwrite: true);
        File.Delete(CheckpointPath);
    }

    public void Dispose() => part.Dispose();
}
