using ClimateGuard.Edges.Sqlite;

namespace ClimateGuard.Worker.Settings;

/// <summary>The section <c>Storage</c> of the settings: how long readings are kept, and what is left to the ledger on a full disk.</summary>
public sealed record StorageSettings
{
    public const string Section = "Storage";

    /// <summary>How long each level is kept.</summary>
    public HistoryRetention Retention { get; init; } = new();

    /// <summary>Free space below which readings are no longer kept, so that the ledger can go on, in [16, 65 536] MB; at most a tenth of the disk counts.</summary>
    public int ReserveMegabytes { get; init; } = 256;

    /// <summary>The reserve in bytes.</summary>
    public long ReserveBytes => ReserveMegabytes * 1_048_576L;

    /// <summary>Everything wrong with the settings, each as one sentence that says how to mend it.</summary>
    public IReadOnlyList<string> Problems() =>
    [
        .. Retention.Problems(),
        .. ReserveMegabytes is < 16 or > 65_536
            ? [$"Storage:ReserveMegabytes {ReserveMegabytes}: a number of megabytes in [16, 65536] is allowed."]
            : Array.Empty<string>(),
    ];
}
