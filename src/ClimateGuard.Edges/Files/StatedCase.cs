using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Edges.Files;

/// <summary>A case for <c>evaluate</c>: a part on a machine with temperatures that someone states.</summary>
/// <param name="Machine">The machine.</param>
/// <param name="Part">The part.</param>
/// <param name="Temperatures">The temperatures and drift.</param>
/// <param name="Cut">The cut that would start.</param>
public sealed record StatedCase(Machine Machine, Part Part, StatedTemperatures Temperatures, CutAhead Cut);

/// <summary>What came of reading a case.</summary>
/// <param name="Case">The case, or null when there are problems.</param>
/// <param name="Problems">Each problem as one sentence with file and place.</param>
public sealed record CaseReading(StatedCase? Case, IReadOnlyList<string> Problems);
