using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text.Json;
using ClimateGuard.Edges.Influx;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Tests.Support;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.SystemTests.Influx;

/// <summary>This test program started again as a process with a store of its own, to be killed from outside.</summary>
internal sealed class InfluxChild : ChildProcess
{
    private const string Role = "CLIMATEGUARD_TEST_INFLUX";

    private InfluxChild(Order order)
        : base(Role, JsonSerializer.Serialize(order))
    {
    }

    /// <summary>Prints a line, then drains what waits.</summary>
    public static InfluxChild Drain(InfluxSettings settings, string folder) => new(new Order(settings, folder, null));

    /// <summary>Appends a second after another, beginning here, and prints each number once it is committed.</summary>
    public static InfluxChild Append(InfluxSettings settings, string folder, int from) => new(new Order(settings, folder, from));

    [ModuleInitializer]
    internal static void Begin()
    {
        if (Environment.GetEnvironmentVariable(Role) is { } text)
        {
            Run(JsonSerializer.Deserialize<Order>(text)!);
        }
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
