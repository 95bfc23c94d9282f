using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>One version of the plant file with what was read from it. Immutable; equality is by reference of the cell and by the texts.</summary>
/// <param name="Cell">The cell it describes.</param>
/// <param name="Version">The version, as permits, outlooks and the ledger name it.</param>
public sealed record PlantVersion(Cell Cell, string Version)
{
    /// <summary>Where the file stands, or empty.</summary>
    public string File { get; init; } = "";

    /// <summary>The whole text of the plant file, for the record; empty when it was not read from a file.</summary>
    public string Text { get; init; } = "";

    /// <summary>The whole text of the material library beside it, or null when the one of the program is used.</summary>
    public string? Materials { get; init; }

    /// <summary>Who wrote it, as far as known, such as <c>owner anna</c>.</summary>
    public string By { get; init; } = "not known";
}
