namespace ClimateGuard.Edges.Mqtt;

/// <summary>Who the worker is, as told on its status topic.</summary>
/// <param name="Version">Version of the program.</param>
/// <param name="ConfigVersion">Version of the plant file in force.</param>
public sealed record WorkerIdentity(string Version, string ConfigVersion);
