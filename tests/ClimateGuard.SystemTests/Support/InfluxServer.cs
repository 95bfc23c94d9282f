using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Influx;

namespace ClimateGuard.SystemTests.Support;

/// <summary>
/// A real influxd (Debian's 1.6.7) with folders and ports of its own, and before it a door that translates <c>/api/v2/write</c>, which it does
/// not know. Killing and starting again keeps its data.
/// </summary>
public sealed class InfluxServer : IAsyncDisposable
{
    private const string Program = "/usr/bin/influxd";

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-influx-").FullName;
    private readonly int port = MosquittoBroker.FreePort();
    private readonly int rpcPort = MosquittoBroker.FreePort();
    private readonly bool accounts;
    private readonly HttpClient http = new();
    private Process? process;
    private int databases;

    /// <param name="accounts">Ask for user and password, which the door takes from the token.</param>
    public InfluxServer(bool accounts = false) => this.accounts = accounts;

    public InfluxDoor Door { get; private set; } = null!;

    public bool IsRunning => process is { HasExited: false };

    /// <summary>Skips the test when influxd is not installed, unless CLIMATEGUARD_REQUIRE_TOOLS=1: then the test fails.</summary>
    public static void Require()
    {
        if (File.Exists(Program))
        {
            return;
        }

        const string reason = $"{Program} is not installed (apt-get install influxdb), so nothing is known about the real InfluxDB";
        Assert.False(Environment.GetEnvironmentVariable("CLIMATEGUARD_REQUIRE_TOOLS") == "1", reason);
        Assert.Skip(reason);
    }

    public static async Task<InfluxServer> StartNewAsync(bool accounts = false)
    {
        var server = new InfluxServer(accounts);
        await server.StartAsync();
        return server;
    }

    public async Task StartAsync()
    {
        Require();
        var config = Path.Combine(folder, "influxdb.conf");
        await File.WriteAllTextAsync(config, string.Create(CultureInfo.InvariantCulture, $"""
            reporting-disabled = true
            bind-address = "127.0.0.1:{rpcPort}"
            [meta]
              dir = "{folder}/meta"
            [data]
              dir = "{folder}/data"
              wal-dir = "{folder}/wal"
            [http]
              bind-address = "127.0.0.1:{port}"
              auth-enabled = {(accounts ? "true" : "false")}
              log-enabled = false
            [monitor]
              store-enabled = false

            """));
        process = Process.Start(new ProcessStartInfo("/bin/sh", ["-c", $"exec {Program} -config {config} >> {folder}/influxd.log 2>&1"]))!;
        Door ??= await InfluxDoor.OpenAsync(new Uri($"http://127.0.0.1:{port}"));
        var patience = Stopwatch.StartNew();
        while (!await AnswersAsync())
        {
            if (process.HasExited || patience.Elapsed > TimeSpan.FromSeconds(20))
            {
                Assert.Fail($"influxd does not answer: {await File.ReadAllTextAsync(Path.Combine(folder, "influxd.log"))}");
            }

            await Task.Delay(20);
        }
    }

    /// <summary>As a power cut would.</summary>
    public async Task KillAsync()
    {
        process!.Kill();
        await process.WaitForExitAsync();
    }

    /// <summary>Such as STOP or CONT.</summary>
    public async Task SignalAsync(string name)
    {
        using var kill = Process.Start("kill", [$"-{name}", process!.Id.ToString(CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync();
        Assert.Equal(0, kill.ExitCode);
    }

    /// <summary>Makes a new, empty database and says how to reach it through the door.</summary>
    public async Task<InfluxSettings> NewDatabaseAsync()
    {
        var name = $"cg{Interlocked.Increment(ref databases)}";
        await AskAsync($"CREATE DATABASE {name}");
        return new InfluxSettings { Url = Door.Address.ToString(), Org = "any", Bucket = $"{name}/autogen", SpoolMegabytes = 16, TimeoutSeconds = 5 };
    }

    /// <summary>Asks influxd itself, not through the door; the rows of the first series.</summary>
    public async Task<IReadOnlyList<JsonElement[]>> AskAsync(string statement, string database = "", string? user = null)
    {
        using var form = new FormUrlEncodedContent([new("q", statement), new("db", database), new("epoch", "ms")]);
        using var answer = await http.PostAsync($"http://127.0.0.1:{port}/query{(user is null ? "" : $"?u={user}&p=secret")}", form);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode && !text.Contains("\"error\"", StringComparison.Ordinal), $"{statement}: {text}");
        var result = JsonSerializer.Deserialize<JsonElement>(text).GetProperty("results")[0];
        return result.TryGetProperty("series", out var series)
            ? [.. series[0].GetProperty("values").EnumerateArray().Select(row => row.EnumerateArray().ToArray())]
            : [];
    }

    /// <summary>Writes lines to influxd itself.</summary>
    public async Task WriteAsync(string database, string lines)
    {
        using var content = new StringContent(lines);
        using var answer = await http.PostAsync($"http://127.0.0.1:{port}/write?db={database}", content);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    public async ValueTask DisposeAsync()
    {
        if (IsRunning)
        {
            await KillAsync();
        }

        if (Door is not null)
        {
            await Door.DisposeAsync();
        }

        process?.Dispose();
        http.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private async Task<bool> AnswersAsync()
    {
        try
        {
            using var answer = await http.GetAsync($"http://127.0.0.1:{port}/ping");
            return answer.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }
}
