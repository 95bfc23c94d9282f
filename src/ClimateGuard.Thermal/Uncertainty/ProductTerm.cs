namespace ClimateGuard.Thermal;

/// <summary>Two independent inputs that act through their product, so that first order sees nothing of one while the other is zero.</summary>
/// <remarks>Its standard uncertainty is |∂²result/∂first∂second|·u(first)·u(second) (JCGM 100, 5.1.2 note and H.1.7).</remarks>
/// <param name="First">The label of one contribution.</param>
/// <param name="Second">The label of another contribution.</param>
/// <param name="MixedDerivative">∂²result/∂first∂second at the estimates.</param>
public sealed record ProductTerm(string First, string Second, double MixedDerivative);
