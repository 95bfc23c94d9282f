namespace ClimateGuard.Worker.Demo;

/// <summary>When the inspection of the week is done, and the file its results go to.</summary>
internal sealed record DemoInspection(DateTimeOffset Due, string File, int Seed);
