using System.IO.Compression;
using System.Text.Json;
using System.Text.Json.Serialization;
using ClimateGuard.Evidence;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.EvidenceTruth;

/// <summary>All that the product may see of a block, and beside it what was true; kept as a file, it can be judged again without living it again.</summary>
internal sealed record BlockRecord
{
    private static readonly JsonSerializerOptions Format = new() { NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals };

    public required int Seed { get; init; }

    public required int Weeks { get; init; }

    /// <summary>Lines of <c>events.jsonl</c>.</summary>
    public required IReadOnlyList<string> Events { get; init; }

    public required IReadOnlyList<RecordedCut> Cuts { get; init; }

    public required IReadOnlyList<ModelCheck> Checks { get; init; }

    /// <summary>Lines of <c>results.csv</c> with their header.</summary>
    public required IReadOnlyList<string> Results { get; init; }

    public required IReadOnlyList<TrueDeviation> Truth { get; init; }

    public static string FileOf(string folder, int seed, int weeks) => Path.Combine(folder, FormattableString.Invariant($"block-{seed}-{weeks}.json.gz"));

    public static BlockRecord? Read(string file)
    {
        if (!File.Exists(file)) return null;
        using var stream = new GZipStream(File.OpenRead(file), CompressionMode.Decompress);
        return JsonSerializer.Deserialize<BlockRecord>(stream, Format);
    }

    public void Write(string file)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        using (var stream = new GZipStream(File.Create(file + ".part"), CompressionLevel.Fastest)) JsonSerializer.Serialize(stream, this, Format);
        File.Move(file + ".part", file, overwrite: true);
    }
}

/// <summary>What an inspected feature, or one of its holes, truly was at 20 °C.</summary>
/// <param name="Serial">Serial.</param>
/// <param name="Feature">Feature.</param>
/// <param name="Hole">Hole, or null.</param>
/// <param name="X">Deviation at 20 °C with the error of measuring and all that is not thermal, in µm; of a hole along its first axis.</param>
/// <param name="Y">Of a hole along its second axis.</param>
/// <param name="ThermalX">What temperature truly did of it.</param>
/// <param name="ThermalY">Of a hole along its second axis.</param>
/// <param name="Case">Scripted case: <c>batch</c>, <c>nights</c>, or empty.</param>
internal sealed record TrueDeviation(string Serial, string Feature, int? Hole, double X, double Y, double ThermalX, double ThermalY, string Case);
