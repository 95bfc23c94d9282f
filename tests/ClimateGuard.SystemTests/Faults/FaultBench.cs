using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.SystemTests.Support;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>A real broker, the real worker and a gateway that floods them, with a look into the store at the end.</summary>
public sealed class FaultBench : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-faults-").FullName;
    private readonly string plantFile;

    private FaultBench(MosquittoBroker broker, double perSecond)
    {
        Broker = broker;
        plantFile = FaultCell.Write(Directory.CreateDirectory(Path.Combine(folder, "plant")).FullName);
        Worker = new WorkerProcess(Path.Combine(folder, "data"));
        Sender = new ReadingSender(broker.Host, broker.Port, perSecond);
    }

    /// <summary>The long runs, whose results stand in the README beside this file: CLIMATEGUARD_LONG=1.</summary>
    public static bool Long { get; } = Environment.GetEnvironmentVariable("CLIMATEGUARD_LONG") == "1";

    public MosquittoBroker Broker { get; }

    public WorkerProcess Worker { get; }

    public ReadingSender Sender { get; }

    /// <summary>Broker and worker are up and subscribed.</summary>
    /// <param name="perSecond">Readings a second.</param>
    /// <param name="port">Where the worker finds the broker, when not at its own port.</param>
    public static async Task<FaultBench> StartAsync(double perSecond, Func<MosquittoBroker, int>? port = null)
    {
        var broker = await MosquittoBroker.StartNewAsync();
        return await StartAsync(broker, perSecond, broker.Host, port?.Invoke(broker) ?? broker.Port);
    }

    /// <summary>The worker is up and subscribed at this broker, which it finds at host and port.</summary>
    public static async Task<FaultBench> StartAsync(MosquittoBroker broker, double perSecond, string host, int port)
    {
        var bench = new FaultBench(broker, perSecond);
        bench.Worker.StartRun(port, bench.plantFile, host);
        await bench.Worker.UntilReadyAsync();
        return bench;
    }

    /// <summary>Writes a row of a table where CLIMATEGUARD_FAULT_TABLE says, for the README.</summary>
    public static void Report(FormattableString row)
    {
        var line = row.ToString(CultureInfo.InvariantCulture);
        TestContext.Current.TestOutputHelper?.WriteLine(line);
        if (Environment.GetEnvironmentVariable("CLIMATEGUARD_FAULT_TABLE") is { Length: > 0 } file)
        {
            File.AppendAllText(file, line + "\n");
        }
    }

    /// <summary>Megabytes of memory that a process really uses.</summary>
    public static double Megabytes(int processId)
    {
        var line = File.ReadLines($"/proc/{processId}/status").First(line => line.StartsWith("VmRSS:", StringComparison.Ordinal));
        return double.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) / 1024;
    }

    /// <summary>The samples of <c>/metrics</c> that begin so, added up.</summary>
    public async Task<double> MetricAsync(string begin)
    {
        var text = await Worker.Http.GetStringAsync("/metrics");
        return text.Split('\n').Where(line => line.StartsWith(begin, StringComparison.Ordinal))
            .Sum(line => double.Parse(line[(line.LastIndexOf(' ') + 1)..], CultureInfo.InvariantCulture));
    }

    /// <summary>Keeps the worker from committing readings, as a disk that hangs would, until it is disposed.</summary>
    public IDisposable HoldStore()
    {
        var file = Assert.Single(Directory.EnumerateFiles(Path.Combine(folder, "data"), "*reading*.db", SearchOption.AllDirectories));
        var holder = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString());
        holder.Open();
        using var begin = holder.CreateCommand();
        begin.CommandText = "BEGIN IMMEDIATE";
        begin.ExecuteNonQuery();
        return holder;
    }

    /// <summary>Waits until the worker commits nothing new any more, and stops it.</summary>
    public async Task SettleAsync()
    {
        await Sender.UntilAllAcknowledgedAsync();
        await Worker.UntilReadyAsync();
        var (patience, before, quiet) = (Stopwatch.StartNew(), -1.0, 0);
        while (quiet < 4)
        {
            Assert.True(patience.Elapsed < TimeSpan.FromMinutes(3), $"the worker does not come to an end: {Worker.Log}");
            await Task.Delay(500);
            var rows = await MetricAsync("climateguard_store_rows");
            quiet = rows == before ? quiet + 1 : 0;
            before = rows;
        }

        await Worker.KillAsync();
    }

    /// <summary>Looks into the store of the stopped worker: the readings that are not there. Fails when one is there twice or with another value.</summary>
    public async Task<IReadOnlyList<long>> MissingAsync()
    {
        using var store = SqliteReadings.Open(new SqliteStorage { Folder = Path.Combine(folder, "data") }, FaultCell.Description, TimeProvider.System, NullLogger.Instance);
        var expected = Enumerable.Range(0, (int)Sender.Produced).ToDictionary(number => Sender.Key(number), number => (long)number);
        for (var sensor = 0; sensor < FaultCell.Sensors; sensor++)
        {
            await foreach (var row in store.RowsAsync(FaultCell.Id(sensor), DateTimeOffset.UnixEpoch, DateTimeOffset.UtcNow.AddDays(1), CancellationToken.None))
            {
                Assert.True(expected.Remove((sensor, row.EpochMilliseconds), out var number), $"{FaultCell.Id(sensor)} at {row.EpochMilliseconds} is there twice or was never sent");
                Assert.Equal(ReadingSender.Value(number), row.Raw, 9);
            }
        }

        return [.. expected.Values.Order()];
    }

    public async ValueTask DisposeAsync()
    {
        await Sender.DisposeAsync();
        await Worker.DisposeAsync();
        await Broker.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }
}
