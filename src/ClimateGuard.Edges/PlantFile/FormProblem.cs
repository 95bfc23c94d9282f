namespace ClimateGuard.Edges.PlantFile;

/// <summary>A problem of form at a place in the file.</summary>
/// <param name="Path">JSON pointer.</param>
/// <param name="Message">Our sentence.</param>
/// <param name="IsUnusable">The value cannot be taken as it is; the checks of meaning go on without it.</param>
/// <param name="IsAbsence">A key is missing at the place; the value there is not itself wrong.</param>
internal sealed record FormProblem(string Path, string Message, bool IsUnusable = false, bool IsAbsence = false);
