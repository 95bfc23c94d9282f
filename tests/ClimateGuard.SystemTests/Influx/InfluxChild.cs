using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text.Json;
using ClimateGuard.Edges.Influx;
using ClimateGuard.Tests.Support;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.SystemTests.Influx;

/// <summary>This test program started again as a process with a store of its own, to be killed from outside.</summary>
internal sealed class InfluxChild : IDisposable
{
    private const string Role = "CLIMATEGUARD_TEST_INFLUX";

    private readonly Process process;

    private InfluxChild(Process process) => this.process = process;

    /// <summary>Prints a line, then drains what waits.</summary>
    public static InfluxChild Drain(InfluxSettings settings, string folder) => Start(new Order(settings, folder, null));

    /// <summary>Appends a second after another, beginning here, and prints each number once it is committed.</summary>
    public static InfluxChild Append(InfluxSettings settings, string folder, int from) => Start(new Order(settings, folder, from));

    public Task<string?> ReadLineAsync() => process.StandardOutput.ReadLineAsync(new CancellationTokenSource(TimeSpan.FromSeconds(30)).Token).AsTask();

    /// <summary>With SIGKILL; returns what was still in the pipe.</summary>
    public async Task<string> KillAsync()
    {
        process.Kill();
        await process.WaitForExitAsync();
        return await process.StandardOutput.ReadToEndAsync();
    }

    public void Dispose()
    {
        if (!process.HasExited)
        {
            process.Kill();
        }

        process.Dispose();
    }

    [ModuleInitializer]
    internal static void Begin()
    {
        if (Environment.GetEnvironmentVariable(Role) is { } text)
        {
            Run(JsonSerializer.Deserialize<Order>(text)!);
        }
    }

    private static InfluxChild Start(Order order)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(InfluxChild).Assembly.Location]) { RedirectStandardOutput = true };
        start.Environment[Role] = JsonSerializer.Serialize(order);
        return new InfluxChild(Process.Start(start)!);
    }

    // Without await: until the initializer of the module has ended no other thread may enter this assembly.
    private static void Run(Order order)
    {
        var store = InfluxReadings.Open(order.Settings, order.Folder, TemporaryStore.CellWith(4), TimeProvider.System, NullLogger.Instance);
        var second = order.From ?? 0;
        if (order.From is null)
        {
            Console.Out.WriteLine("draining");
            store.StartAsync(CancellationToken.None).GetAwaiter().GetResult();
            Thread.Sleep(Timeout.Infinite);
        }

        for (; ; second++)
        {
            store.AppendAsync(InfluxBench.Second(second), CancellationToken.None).AsTask().GetAwaiter().GetResult();
            Console.Out.WriteLine(second.ToString(CultureInfo.InvariantCulture));
        }
    }

    private sealed record Order(InfluxSettings Settings, string Folder, int? From);
}
