namespace ClimateGuard.Watch;

/// <summary>One line of the record of what was decided.</summary>
/// <param name="Time">When it was decided.</param>
/// <param name="Kind">What it is: <c>outlook</c>, <c>alert</c>, <c>config</c>, <c>answer</c>, <c>measurement</c>, <c>override</c>.</param>
/// <param name="Machine">Id of the machine, or null.</param>
/// <param name="Json">The whole content as one JSON object.</param>
public sealed record LedgerLine(DateTimeOffset Time, string Kind, string? Machine, string Json);
