namespace ClimateGuard.Edges.PlantFile;

/// <summary>A value of a YAML file that knows where it stands.</summary>
internal abstract record FileNode(int Line, int Column);

/// <summary>A single value, as written; only a plain one (without quotes, block or tag) can be a number, true, false or nothing.</summary>
internal sealed record FileScalar(int Line, int Column, string Text, bool IsPlain) : FileNode(Line, Column);

/// <summary>A list.</summary>
internal sealed record FileList(int Line, int Column, IReadOnlyList<FileNode> Items) : FileNode(Line, Column);

/// <summary>Keys with their values, in the order of the file; no key twice.</summary>
internal sealed record FileMap(int Line, int Column, IReadOnlyList<FileEntry> Entries) : FileNode(Line, Column)
{
    public FileEntry? Find(string key) => Entries.FirstOrDefault(e => e.Key == key);
}

/// <summary>A key with its value.</summary>
internal sealed record FileEntry(string Key, int Line, int Column, FileNode Value);
