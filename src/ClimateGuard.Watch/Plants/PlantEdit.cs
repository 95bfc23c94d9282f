namespace ClimateGuard.Watch;

/// <summary>What became of the plant file while the cell runs. A closed set: <see cref="PlantChange"/>, <see cref="PlantRefused"/>, <see cref="PlantUnchanged"/>.</summary>
public abstract record PlantEdit;

/// <summary>A good file that is to come into force.</summary>
/// <param name="Next">The new version. Id and time zone of the cell are those in force; a change of them needs a restart.</param>
/// <param name="Before">The version that the differences were worked out against. When another is in force by then, the change is not taken.</param>
/// <param name="Differences">What differs, one line each, old → new; bounded.</param>
/// <param name="DifferencesLeftOut">How many more there are.</param>
public sealed record PlantChange(PlantVersion Next, string Before, IReadOnlyList<string> Differences, int DifferencesLeftOut = 0) : PlantEdit;

/// <summary>A file that cannot be used; the version in force stays.</summary>
/// <param name="Version">Version of the refused file; empty when it could not be read at all.</param>
/// <param name="Problems">The first problems, each with its file, its line and what is allowed; one or more.</param>
/// <param name="ProblemsLeftOut">How many more there are.</param>
public sealed record PlantRefused(string Version, IReadOnlyList<string> Problems, int ProblemsLeftOut = 0) : PlantEdit
{
    /// <summary>The first problem, and how many more there are.</summary>
    public string First => Problems.Count + ProblemsLeftOut - 1 is > 0 and var more ? $"{Problems[0]} (and {more} more)" : Problems[0];
}

/// <summary>The file is again the one in force.</summary>
public sealed record PlantUnchanged : PlantEdit;
