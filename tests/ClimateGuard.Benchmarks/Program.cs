using BenchmarkDotNet.Running;
using ClimateGuard.Benchmarks.PermitLatency;
using ClimateGuard.Benchmarks.ReplaySpeed;

if (args is ["permit-latency", ..])
{
    await PermitLatencyBench.RunAsync();
    return;
}

if (args is ["replay-speed", ..])
{
    await ReplaySpeedBench.RunAsync(args.Length > 1 ? double.Parse(args[1], System.Globalization.CultureInfo.InvariantCulture) : 7);
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
