namespace ClimateGuard.Edges.Sqlite;

/// <summary>What was found when a file of the store was opened.</summary>
/// <param name="Path">The file in use.</param>
/// <param name="Created">It was not there before, or a damaged one was set aside.</param>
/// <param name="SetAside">Where the damaged file now lies, or null.</param>
/// <param name="Check">How far the check at start came.</param>
public sealed record StoreOpening(string Path, bool Created, string? SetAside, StoreCheck Check);

/// <summary>How far the check at start came.</summary>
public enum StoreCheck
{
    /// <summary>The whole file was read and is sound.</summary>
    Whole,

    /// <summary>The time ran out; what was read until then is sound.</summary>
    Partial,
}
