using BenchmarkDotNet.Running;
using ClimateGuard.Benchmarks.HistoryYear;
using ClimateGuard.Benchmarks.PermitLatency;

if (args is ["permit-latency", ..])
{
    await PermitLatencyBench.RunAsync();
    return;
}

if (args is ["history-year", ..])
{
    await HistoryBench.YearAsync(args);
    return;
}

if (args is ["history-append", ..])
{
    await HistoryBench.AppendAsync(args);
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
