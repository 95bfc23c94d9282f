using ClimateGuard.Plant;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>What reading a plant file gave: a cell, or everything that is wrong with the file.</summary>
/// <param name="Cell">The cell, or null when there is any problem.</param>
/// <param name="Problems">All problems, by file and line; empty when there is a cell.</param>
/// <param name="ConfigVersion">
/// The first 12 hexadecimal digits of SHA-256 over the bytes of the plant file, followed by those of a <c>materials.yaml</c> beside it;
/// empty when the file could not be read.
/// </param>
public sealed record PlantFileResult(Cell? Cell, IReadOnlyList<LocatedProblem> Problems, string ConfigVersion)
{
    /// <summary>The text that was read; empty when there was none.</summary>
    public string Text { get; init; } = "";

    /// <summary>The text of the <c>materials.yaml</c> beside it, or null when the shipped library is used.</summary>
    public string? Materials { get; init; }

    /// <summary>What is stated but not used, such as a nominal of a position; no reason to refuse the file.</summary>
    public IReadOnlyList<LocatedProblem> Notes { get; init; } = [];
}
