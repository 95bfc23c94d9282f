namespace ClimateGuard.Thermal;

/// <summary>One explanation and how well it does.</summary>
/// <param name="Model">The explanation.</param>
/// <param name="Parameters">How many numbers it takes from the record: coefficients, time constants and the spread.</param>
/// <param name="ResidualMicrometres">Root mean square of what it leaves unexplained in the means over analysis steps, in µm.</param>
/// <param name="Bic">
/// Bayes information criterion nₑ·ln(RSS/n) + p·ln(nₑ) (Schwarz 1978), with the effective sample size nₑ of the closest model's residuals
/// in place of n, because neighbours in time are not new evidence. Lower is better.
/// </param>
public sealed record DriftFitCandidate(DriftFitModel Model, int Parameters, double ResidualMicrometres, double Bic);
