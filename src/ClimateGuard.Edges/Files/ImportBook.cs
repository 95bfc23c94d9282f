using System.Text.Json;
using ClimateGuard.Edges.Sqlite;

namespace ClimateGuard.Edges.Files;

/// <summary>How far each file was imported: <c>imports.json</c> beside the store. Losing it loses time, never rows: a row is written once anyway.</summary>
public sealed class ImportBook : IDisposable
{
    /// <summary>How many files are remembered; the oldest go first.</summary>
    public const int MostRemembered = 200;

    private const string Name = "imports.json";

    private readonly string path;
    private readonly FileStream held;
    private readonly List<ImportMark> marks;

    private ImportBook(string path, FileStream held, List<ImportMark> marks)
    {
        this.path = path;
        this.held = held;
        this.marks = marks;
    }

    /// <summary>Opens the book of a store; one import at a time holds it.</summary>
    /// <param name="folder">The folder of the store; made when it is not there, as while the readings are in InfluxDB.</param>
    /// <returns>The book, or null while another import holds it.</returns>
    /// <exception cref="StoreUnavailableException">The folder cannot be written.</exception>
    public static ImportBook? Open(string folder)
    {
        var path = Path.Combine(folder, Name);
        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw SqliteFault.Explain(fault, Path.GetFullPath(folder), "Nothing was imported.");
        }

        FileStream held;
        try
        {
            held = new FileStream(path + ".lock", FileMode.OpenOrCreate, FileAccess.Write, FileShare.None);
        }
        catch (IOException)
        {
            return null;
        }

        return new ImportBook(path, held, Read(path));
    }

    /// <summary>What is remembered of files of this name, newest first.</summary>
    /// <param name="file">The file; its name counts, not its folder.</param>
    public IReadOnlyList<ImportMark> Of(string file) =>
        [.. marks.Where(mark => mark.File == Path.GetFileName(file)).Reverse()];

    /// <summary>Remembers how far a file was imported, in place of what it goes on from.</summary>
    /// <param name="mark">The mark.</param>
    /// <param name="instead">The mark before of the same import, or null.</param>
    public void Note(ImportMark mark, ImportMark? instead)
    {
        ArgumentNullException.ThrowIfNull(mark);
        marks.RemoveAll(known => known == instead || known == mark);
        marks.Add(mark);
        marks.RemoveRange(0, Math.Max(0, marks.Count - MostRemembered));
        var beside = path + ".part";
        File.WriteAllText(beside, JsonSerializer.Serialize(marks, JsonSerializerOptions.Web));
        File.Move(beside, path, overwrite: true);
    }

    /// <summary>Lets the next import in.</summary>
    public void Dispose() => held.Dispose();

    private static List<ImportMark> Read(string path)
    {
        try
        {
            return File.Exists(path) ? JsonSerializer.Deserialize<List<ImportMark>>(File.ReadAllText(path), JsonSerializerOptions.Web) ?? [] : [];
        }
        catch (Exception broken) when (broken is JsonException or IOException)
        {
            // Then the files are read from their first row again, and nothing is written twice.
            return [];
        }
    }
}

/// <summary>How far a file was imported.</summary>
/// <param name="File">Its name.</param>
/// <param name="Offset">Bytes of the unpacked text, or rows of a Parquet file.</param>
/// <param name="Line">The line or row read last.</param>
/// <param name="Sha256">Of the text before, or of the whole Parquet file.</param>
/// <param name="Done">It ended there.</param>
public sealed record ImportMark(string File, long Offset, long Line, string Sha256, bool Done)
{
    internal InputPlace Place => new(Offset, Line, Sha256);
}
