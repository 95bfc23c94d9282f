using BenchmarkDotNet.Running;
using ClimateGuard.Benchmarks.PermitLatency;
using ClimateGuard.Benchmarks.Truth;

if (args is ["permit-latency", ..])
{
    await PermitLatencyBench.RunAsync();
    return;
}

if (args is ["truth", ..])
{
    await TruthBench.RunAsync(args);
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
