using ClimateGuard.Edges.Files;
using ClimateGuard.Evidence;

namespace ClimateGuard.Worker.Hosting;

/// <summary>What became of a file of inspection results. A closed set.</summary>
internal abstract record ResultsAnswer;

/// <summary>It was refused and nothing was kept; each problem with its line.</summary>
internal sealed record ResultsRefused(IReadOnlyList<string> Problems, bool CameBefore = false) : ResultsAnswer;

/// <summary>What would be taken in; nothing was kept.</summary>
internal sealed record ResultsPreview(InspectionImport Import, IReadOnlyList<InspectionValue> Values, IReadOnlyList<string> Unknown) : ResultsAnswer
{
    /// <summary>A value names no machine, and none follows from what was cut: the file would be refused.</summary>
    public bool WouldBeRefused => Values.Any(value => value.Machine.Length == 0);
}

/// <summary>What was taken in.</summary>
internal sealed record ResultsTaken(InspectionImport Import, int Values, int OverridesScored, int OverridesRight, IReadOnlyList<string> Unknown) : ResultsAnswer;
