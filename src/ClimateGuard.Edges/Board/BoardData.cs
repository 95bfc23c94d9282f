using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Board;

/// <summary>An answer with what it rests on: enough to compute every number again.</summary>
public sealed record BoardData
{
    /// <summary>The cell.</summary>
    public required Cell Cell { get; init; }

    /// <summary>The answer.</summary>
    public required EvidenceAnswer Answer { get; init; }

    /// <summary>What became of each part.</summary>
    public required GenealogyRecord Genealogy { get; init; }

    /// <summary>What was asked, answered and taken on oneself of each piece of work.</summary>
    public required Proceedings Proceedings { get; init; }

    /// <summary>Version of the plant file.</summary>
    public required string ConfigVersion { get; init; }

    /// <summary>Hash of the readings.</summary>
    public required string ReadingsSha256 { get; init; }

    /// <summary>Hash of the events.</summary>
    public required string EventsSha256 { get; init; }

    /// <summary>Hash of the results.</summary>
    public required string ResultsSha256 { get; init; }

    /// <summary>The first moment, or null.</summary>
    public required DateTimeOffset? From { get; init; }

    /// <summary>The last moment, or null.</summary>
    public required DateTimeOffset? To { get; init; }

    /// <summary>Number of readings.</summary>
    public required long Readings { get; init; }

    /// <summary>Number of events.</summary>
    public required long Events { get; init; }

    /// <summary>The span was too long to replay holds minute by minute; what was predicted stands from one outlook before each cut.</summary>
    public bool OnlyExposures { get; init; }

    /// <summary>The time zone of the place.</summary>
    public required TimeZoneInfo Zone { get; init; }

    /// <summary>Version of the program.</summary>
    public static string ProgramVersion => typeof(BoardData).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";
}
