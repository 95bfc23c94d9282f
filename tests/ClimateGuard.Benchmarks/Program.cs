using BenchmarkDotNet.Running;
using ClimateGuard.Benchmarks.InfluxAppend;
using ClimateGuard.Benchmarks.PermitLatency;

if (args is ["permit-latency", ..])
{
    await PermitLatencyBench.RunAsync();
    return;
}

if (args is ["influx-append", ..])
{
    await InfluxUnderTest.RunAsync();
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
