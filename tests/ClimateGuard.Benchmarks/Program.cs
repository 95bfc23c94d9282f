using BenchmarkDotNet.Running;
using ClimateGuard.Benchmarks.PermitLatency;

if (args is ["permit-latency", ..])
{
    await PermitLatencyBench.RunAsync();
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
