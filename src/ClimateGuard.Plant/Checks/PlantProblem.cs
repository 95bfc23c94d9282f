namespace ClimateGuard.Plant;

/// <summary>One thing wrong with a description, said to the person who must mend it.</summary>
/// <param name="Path">Where, as a JSON pointer into the plant file, such as <c>/parts/0/material</c>.</param>
/// <param name="Message">What was found and what is allowed, in one sentence.</param>
public sealed record PlantProblem(string Path, string Message);
