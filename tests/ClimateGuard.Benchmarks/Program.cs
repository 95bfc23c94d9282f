using BenchmarkDotNet.Running;
using ClimateGuard.Benchmarks.Diagnosing;
using ClimateGuard.Benchmarks.PermitLatency;

if (args is ["permit-latency", ..])
{
    await PermitLatencyBench.RunAsync();
    return;
}

if (args is ["diagnose-quality", ..])
{
    DiagnoseQualityBench.Run(args.Contains("--wordy"), args.Contains("--alone"));
    return;
}

if (args is ["diagnose-speed", ..])
{
    DiagnoseSpeedBench.Run();
    return;
}

if (args is ["diagnose-virtual", ..])
{
    DiagnoseVirtualBench.Run(args);
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
