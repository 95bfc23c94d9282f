using System.Diagnostics;
using System.Globalization;

namespace ClimateGuard.Benchmarks.Shop;

/// <summary>The real program, Release, on a plant file and a broker, with a folder of its own.</summary>
internal sealed class ShopWorker : IAsyncDisposable
{
    private readonly string folder;
    private readonly Process process;

    private ShopWorker(string plant, int brokerPort, string? storeBase)
    {
        folder = Directory.CreateDirectory(Path.Combine(storeBase ?? Path.GetTempPath(), $"climateguard-bench-{Guid.NewGuid():N}")).FullName;
        var plantFile = Path.Combine(folder, "plant.yaml");
        File.WriteAllText(plantFile, plant);
        var httpPort = ShopBroker.FreePort();
        Http.BaseAddress = new Uri($"http://127.0.0.1:{httpPort}");
        var program = Directory.EnumerateFiles(
            Path.Combine(FindRoot(), "src", "ClimateGuard.Worker", "bin", "Release"), "climateguard.dll", SearchOption.AllDirectories)
            .First(file => !file.Contains("publish", StringComparison.Ordinal));
        var start = new ProcessStartInfo("dotnet", [program, "run", "--plant", plantFile]) { RedirectStandardError = false };
        start.Environment["CLIMATEGUARD_Broker__Port"] = brokerPort.ToString(CultureInfo.InvariantCulture);
        start.Environment["CLIMATEGUARD_Storage__Path"] = Path.Combine(folder, "data");
        start.Environment["CLIMATEGUARD_Http__Urls"] = Http.BaseAddress.ToString();
        process = Process.Start(start)!;
    }

    public HttpClient Http { get; } = new();

    public TimeSpan ProcessorTime => process.TotalProcessorTime;

    public int Id => process.Id;

    public double Megabytes
    {
        get
        {
            process.Refresh();
            return process.WorkingSet64 / 1e6;
        }
    }

    public static async Task<ShopWorker> StartAsync(string plant, int brokerPort, string? storeBase = null)
    {
        var worker = new ShopWorker(plant, brokerPort, storeBase);
        await worker.UntilReadyAsync();
        return worker;
    }

    /// <summary>The samples of <c>/metrics</c> whose name begins so, added up, such as <c>climateguard_store_rows</c>.</summary>
    public async Task<double> MetricAsync(string name)
    {
        var text = await Http.GetStringAsync("/metrics");
        return text.Split('\n').Where(line => line.StartsWith(name, StringComparison.Ordinal))
            .Sum(line => double.Parse(line[(line.LastIndexOf(' ') + 1)..], CultureInfo.InvariantCulture));
    }

    public async ValueTask DisposeAsync()
    {
        Http.Dispose();
        process.Kill();
        await process.WaitForExitAsync();
        process.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private async Task UntilReadyAsync()
    {
        for (var tries = 0; tries < 3000; tries++)
        {
            try
            {
                using var answer = await Http.GetAsync("/health/ready");
                if (answer.IsSuccessStatusCode)
                {
                    return;
                }
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }

            await Task.Delay(100);
        }

        throw new InvalidOperationException("The worker does not get ready; is a Release build of src/ClimateGuard.Worker there?");
    }

    private static string FindRoot()
    {
        var place = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(place!.FullName, "ClimateGuard.sln")))
        {
            place = place.Parent;
        }

        return place.FullName;
    }
}
