using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace ClimateGuard.SystemTests.Support;

/// <summary>A real victoria-metrics: it takes <c>/api/v2/write</c> as it is, without a door before it, and reads no InfluxQL.</summary>
public sealed class VictoriaMetrics : IAsyncDisposable
{
    private const string Program = "/usr/bin/victoria-metrics";

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-victoria-").FullName;
    private readonly HttpClient http = new();
    private Process? process;

    private VictoriaMetrics() => http.BaseAddress = Address;

    public Uri Address { get; } = new($"http://127.0.0.1:{MosquittoBroker.FreePort()}");

    public static async Task<VictoriaMetrics> StartNewAsync()
    {
        if (!File.Exists(Program))
        {
            const string reason = $"{Program} is not installed (apt-get install victoria-metrics), so nothing is known about the unchanged way of writing";
            Assert.False(Environment.GetEnvironmentVariable("CLIMATEGUARD_REQUIRE_TOOLS") == "1", reason);
            Assert.Skip(reason);
        }

        var engine = new VictoriaMetrics();
        await engine.StartAsync();
        return engine;
    }

    /// <summary>Everything it has of a metric: per series its labels, times and values.</summary>
    public async Task<IReadOnlyList<JsonElement>> ExportAsync(string match)
    {
        await http.GetAsync("/internal/force_flush");
        var text = await http.GetStringAsync($"/api/v1/export?match[]={Uri.EscapeDataString(match)}");
        return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonSerializer.Deserialize<JsonElement>(line))];
    }

    public async ValueTask DisposeAsync()
    {
        if (process is { HasExited: false })
        {
            process.Kill();
            await process.WaitForExitAsync();
        }

        process?.Dispose();
        http.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private async Task StartAsync()
    {
        var listen = string.Create(CultureInfo.InvariantCulture, $"-httpListenAddr=127.0.0.1:{Address.Port}");
        process = Process.Start(new ProcessStartInfo(
            "/bin/sh", ["-c", $"exec {Program} -storageDataPath={folder}/data -retentionPeriod=100y {listen} > {folder}/log 2>&1"]))!;
        var patience = Stopwatch.StartNew();
        while (true)
        {
            try
            {
                using var answer = await http.GetAsync("/health");
                return;
            }
            catch (HttpRequestException) when (patience.Elapsed < TimeSpan.FromSeconds(20) && !process.HasExited)
            {
                await Task.Delay(50);
            }
        }
    }
}
