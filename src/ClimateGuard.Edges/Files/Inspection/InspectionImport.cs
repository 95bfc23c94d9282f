using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Files;

/// <summary>What a file of inspection results holds: its values, or every problem with its line; never both.</summary>
/// <param name="Values">The values, in the order of the file; re-measurements are all kept.</param>
/// <param name="Problems">Why nothing may be imported; empty when the file is good.</param>
public sealed record InspectionImport(IReadOnlyList<InspectionValue> Values, IReadOnlyList<string> Problems)
{
    /// <summary>The most problems that are told of one file.</summary>
    public const int MostProblems = 50;

    /// <summary>What was left out or looks odd, for a person to see before anything is kept.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>Rows or characteristics without a value: not measured, which is not zero.</summary>
    public int NotMeasured { get; init; }

    /// <summary>Of what form the file is: <c>csv</c> or <c>qif</c>.</summary>
    public string Form { get; init; } = "csv";

    internal static InspectionImport Refused(string problem, string form = "csv") => new([], [problem]) { Form = form };
}
