namespace ClimateGuard.Edges.Sqlite;

/// <summary>A packed block does not read back as it was written: its check sum or its shape is wrong.</summary>
internal sealed class DamagedBlockException(string what) : Exception($"a packed block is damaged: {what}");
