using System.Text;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.EvidenceTruth;

/// <summary>A verdict beside the truth.</summary>
/// <param name="Seed">Of the block.</param>
/// <param name="Said">The verdict with all it rests on.</param>
/// <param name="Measured">Deviation at 20 °C as measured there, in µm; of a pattern the diametral one of the hole that decided.</param>
/// <param name="Thermal">What temperature truly did in the direction of that deviation, in µm.</param>
/// <param name="Case">Scripted case, or empty.</param>
internal sealed record JudgedFeature(int Seed, FeatureEvidence Said, double Measured, double Thermal, string Case)
{
    public VerdictLevel Level => Said.Verdict.Level;

    /// <summary>True thermal share of the measured deviation.</summary>
    public double Share => Thermal / Measured;

    /// <summary>Temperature made the larger part: without it less than half of the deviation would be left.</summary>
    public bool MainlyThermal => Share is > 0.5 and < 1.5;

    /// <summary>The share of the ladder's "main cause".</summary>
    public bool TrulyThermal => Share is >= 0.7 and <= 1.3;

    public bool OutOfTolerance => !Said.Inspected.InTolerance;

    /// <summary>The deviation is larger than what measuring alone may make, and more than the thermal budget: something to ask about.</summary>
    public bool WorthAsking => Math.Abs(Measured) > 2 * (Said.AtReference.Worst.StandardUncertainty ?? 0)
        && Math.Abs(Measured) > Said.Inspected.Feature.Budget.MicrometresFor(Said.Inspected.Feature.ToleranceMillimetres);

    /// <summary>What the product says of a block, and the truth of each feature.</summary>
    public static IReadOnlyList<JudgedFeature> Of(Cell cell, BlockRecord block)
    {
        var genealogy = GenealogyRecord.Of(block.Events.Select(line => EventDecoder.DecodeLine(Encoding.UTF8.GetBytes(line)).Event!));
        var import = InspectionFile.Read(Encoding.UTF8.GetBytes(string.Join('\n', block.Results)), cell);
        if (import.Problems.Count > 0) throw new InvalidOperationException("The results of the block are refused: " + import.Problems[0]);
        var answer = EvidenceAnalysis.Of(new EvidenceQuestion
        {
            Cell = cell, Zone = TimeZoneInfo.FindSystemTimeZoneById(cell.Description.TimeZone), Genealogy = genealogy,
            Cuts = RecordedCuts.Exposures(cell, genealogy, block.Cuts), Values = import.Values, Checks = block.Checks,
        });
        var truth = block.Truth.ToLookup(one => (one.Serial, one.Feature));
        return [.. answer.Features.Select(one => Beside(block.Seed, one, [.. truth[(one.Serial, one.Inspected.Feature.Id)]]))];
    }

    private static JudgedFeature Beside(int seed, FeatureEvidence said, TrueDeviation[] truth)
    {
        var one = truth.FirstOrDefault(hole => hole.Hole == said.AtReference.WorstHole) ?? truth[0];
        if (one.Hole is null) return new JudgedFeature(seed, said, one.X, one.ThermalX, one.Case);
        var length = double.Hypot(one.X, one.Y);
        return new JudgedFeature(seed, said, 2 * length, 2 * ((one.X * one.ThermalX) + (one.Y * one.ThermalY)) / length, one.Case);
    }
}
