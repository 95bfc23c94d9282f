namespace ClimateGuard.Thermal;

/// <summary>Two inputs of a budget that err together, such as two sensors calibrated against one reference.</summary>
/// <param name="First">The label of one contribution.</param>
/// <param name="Second">The label of another contribution.</param>
/// <param name="Coefficient">r, in [-1, 1].</param>
public sealed record Correlation(string First, string Second, double Coefficient);
