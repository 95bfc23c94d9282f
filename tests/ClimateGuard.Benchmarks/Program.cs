using System.Globalization;
using BenchmarkDotNet.Running;
using ClimateGuard.Benchmarks.BigCell;
using ClimateGuard.Benchmarks.Diagnosing;
using ClimateGuard.Benchmarks.EvidenceSpeed;
using ClimateGuard.Benchmarks.EvidenceTruth;
using ClimateGuard.Benchmarks.Forecasting;
using ClimateGuard.Benchmarks.HistoryYear;
using ClimateGuard.Benchmarks.InfluxAppend;
using ClimateGuard.Benchmarks.Ingest;
using ClimateGuard.Benchmarks.PermitLatency;
using ClimateGuard.Benchmarks.ReplaySpeed;
using ClimateGuard.Benchmarks.Shop;
using ClimateGuard.Benchmarks.Truth;

switch (args)
{
    case ["permit-latency", ..]:
        await PermitLatencyBench.RunAsync();
        return;
    case ["ingest", ..]:
        await IngestBench.RunAsync(args.Length > 1 ? args[1] : Path.GetTempPath());
        return;
    case ["big-cell", ..]:
        await BigCellBench.RunAsync(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 0);
        return;
    case ["bare-subscriber", var port]:
        await BareSubscriber.RunAsync(int.Parse(port, CultureInfo.InvariantCulture));
        return;
    case ["influx-append", ..]:
        await InfluxUnderTest.RunAsync();
        return;
    case ["history-year", ..]:
        await HistoryBench.YearAsync(args);
        return;
    case ["history-append", ..]:
        await HistoryBench.AppendAsync(args);
        return;
    case ["replay-speed", ..]:
        await ReplaySpeedBench.RunAsync(args.Length > 1 ? double.Parse(args[1], CultureInfo.InvariantCulture) : 7);
        return;
    case ["diagnose-quality", ..]:
        DiagnoseQualityBench.Run(args.Contains("--wordy"), args.Contains("--alone"));
        return;
    case ["diagnose-virtual", ..]:
        DiagnoseVirtualBench.Run(args);
        return;
    case ["diagnose-speed", ..]:
        DiagnoseSpeedBench.Run();
        return;
    case ["diagnose-live", ..]:
        DiagnoseLiveBench.Run(args);
        return;
    case ["forecast-quality", ..]:
        ForecastQualityBench.Run(args);
        return;
    case ["truth", ..]:
        await TruthBench.RunAsync(args);
        return;
    case ["evidence-speed", ..]:
        await EvidenceSpeedBench.RunAsync(args);
        return;
    case ["evidence-truth", ..]:
        EvidenceTruthBench.Run(args);
        return;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
        return;
}
