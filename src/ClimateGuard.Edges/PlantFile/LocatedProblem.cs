namespace ClimateGuard.Edges.PlantFile;

/// <summary>One thing wrong in a file, where a person finds it.</summary>
/// <param name="File">The file as it was named.</param>
/// <param name="Line">Line, from 1; 0 when the file as a whole is meant.</param>
/// <param name="Column">Column, from 1; 0 when the file as a whole is meant.</param>
/// <param name="Path">The place as a JSON pointer such as <c>/parts/0/material</c>; empty for the file as a whole.</param>
/// <param name="Message">What was found and what is allowed.</param>
public sealed record LocatedProblem(string File, int Line, int Column, string Path, string Message)
{
    /// <summary>File, line and column as editors and terminals link them, then the sentence.</summary>
    public override string ToString() => Line > 0 ? $"{File}:{Line}:{Column}: {Message}" : $"{File}: {Message}";
}
