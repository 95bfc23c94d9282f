using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace ClimateGuard.SystemTests.Support;

/// <summary>The published program as a process of its own, with a folder of its own for its history.</summary>
public sealed class WorkerProcess : IAsyncDisposable
{
    private readonly StringBuilder log = new();
    private readonly string folder;
    private Process? process;
    private Action again = () => { };

    /// <param name="sharedFolder">The folder for its history; one of its own when null.</param>
    public WorkerProcess(string? sharedFolder = null) =>
        folder = sharedFolder ?? Directory.CreateTempSubdirectory("climateguard-worker-").FullName;

    public int Id => process!.Id;

    public int Port { get; } = MosquittoBroker.FreePort();

    public Uri Address => new($"http://127.0.0.1:{Port}");

    public HttpClient Http { get; } = new();

    public string Log
    {
        get
        {
            lock (log)
            {
                return log.ToString();
            }
        }
    }

    public static string Repository { get; } = FindRepository();

    /// <summary>The program as it was built, with its own native libraries and page files beside it.</summary>
    public static string Program { get; } = Directory.EnumerateFiles(
        Path.Combine(Repository, "src", "ClimateGuard.Worker", "bin", Configuration()), "climateguard.dll", SearchOption.AllDirectories)
        .Where(file => !file.Contains("publish", StringComparison.Ordinal))
        .OrderByDescending(File.GetLastWriteTimeUtc)
        .First();

    public static Task<(int ExitCode, string Output, string Errors)> RunToEndAsync(params string[] arguments) => RunToEndAsync([], arguments);

    /// <summary>Runs the program with settings of its own: those of this process would reach the tests that run beside.</summary>
    public static async Task<(int ExitCode, string Output, string Errors)> RunToEndAsync(Dictionary<string, string> environment, string[] arguments)
    {
        using var run = Start(arguments, environment);
        var output = run.StandardOutput.ReadToEndAsync();
        var errors = run.StandardError.ReadToEndAsync();
        await run.WaitForExitAsync(new CancellationTokenSource(TimeSpan.FromSeconds(60)).Token);
        return (run.ExitCode, await output, await errors);
    }

    /// <summary>Starts <c>run</c> against a broker; returns at once.</summary>
    public void StartRun(int brokerPort, string? plantFile = null, string brokerHost = "127.0.0.1", params (string Name, string Value)[] more)
    {
        Http.BaseAddress ??= Address;
        var environment = new Dictionary<string, string>
        {
            ["CLIMATEGUARD_Broker__Host"] = brokerHost,
            ["CLIMATEGUARD_Broker__Port"] = brokerPort.ToString(CultureInfo.InvariantCulture),
            ["CLIMATEGUARD_Storage__Path"] = folder,
            ["CLIMATEGUARD_Http__Urls"] = Address.ToString(),
        };
        foreach (var (name, value) in more)
        {
            environment[$"CLIMATEGUARD_{name}"] = value;
        }

        again = () => Begin(["run", "--plant", plantFile ?? Path.Combine(Repository, "config", "plant.yaml")], environment);
        again();
    }

    /// <summary>Starts <c>run</c> once more on the same folder.</summary>
    public void StartAgain() => again();

    /// <summary>What <c>ledger verify</c> says of the folder, while the worker runs.</summary>
    public Task<(int ExitCode, string Output, string Errors)> LedgerVerifyAsync() => RunOnFolderAsync("ledger", "verify");

    /// <summary>Runs the program with these arguments on the folder, while the worker runs.</summary>
    public Task<(int ExitCode, string Output, string Errors)> RunOnFolderAsync(params string[] arguments) =>
        RunToEndAsync(new Dictionary<string, string> { ["CLIMATEGUARD_Storage__Path"] = folder }, arguments);

    /// <summary>Starts <c>demo</c>.</summary>
    public void StartDemo(double speed, params string[] more)
    {
        Http.BaseAddress = Address;
        Begin(["demo", "--port", Port.ToString(CultureInfo.InvariantCulture), "--speed", speed.ToString(CultureInfo.InvariantCulture), .. more], []);
    }

    public async Task UntilReadyAsync(int seconds = 60)
    {
        var patience = Stopwatch.StartNew();
        while (!await IsReadyAsync())
        {
            Assert.False(process!.HasExited, $"the worker ended: {Log}");
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(seconds), $"the worker is not ready: {Log}");
            await Task.Delay(50);
        }
    }

    public async Task<JsonElement> GetAsync(string path)
    {
        using var answer = await Http.GetAsync(path);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, $"GET {path}: {(int)answer.StatusCode} {text}");
        return JsonSerializer.Deserialize<JsonElement>(text);
    }

    public async Task UntilLogAsync(string text)
    {
        var patience = Stopwatch.StartNew();
        while (!Log.Contains(text, StringComparison.Ordinal))
        {
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(60), $"the worker did not say \"{text}\": {Log}");
            await Task.Delay(50);
        }
    }

    /// <summary>Such as STOP, CONT or TERM.</summary>
    public async Task SignalAsync(string name)
    {
        using var kill = Process.Start("kill", [$"-{name}", Id.ToString(CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync();
        Assert.Equal(0, kill.ExitCode);
    }

    public async Task<(System.Net.HttpStatusCode Status, JsonElement Body)> PostAsync(string path, string json)
    {
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using var answer = await Http.PostAsync(path, content);
        return (answer.StatusCode, JsonSerializer.Deserialize<JsonElement>(await answer.Content.ReadAsStringAsync()));
    }

    /// <summary>As a power cut would.</summary>
    public async Task KillAsync()
    {
        process!.Kill();
        await process.WaitForExitAsync();
    }

    public async ValueTask DisposeAsync()
    {
        Http.Dispose();
        if (process is { HasExited: false })
        {
            await KillAsync();
        }

        process?.Dispose();
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static Process Start(string[] arguments, Dictionary<string, string> environment)
    {
        var start = new ProcessStartInfo("dotnet", [Program, .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Repository,
        };
        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        return Process.Start(start)!;
    }

    private static string Configuration() => AppContext.BaseDirectory.Contains("Release", StringComparison.Ordinal) ? "Release" : "Debug";

    private static string FindRepository()
    {
        var place = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(place!.FullName, "ClimateGuard.sln")))
        {
            place = place.Parent;
        }

        return place.FullName;
    }

    private void Begin(string[] arguments, Dictionary<string, string> environment)
    {
        process = Start(arguments, environment);
        process.OutputDataReceived += (_, line) => Note(line.Data);
        process.ErrorDataReceived += (_, line) => Note(line.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    private void Note(string? line)
    {
        lock (log)
        {
            log.AppendLine(line);
        }
    }

    private async Task<bool> IsReadyAsync()
    {
        try
        {
            using var answer = await Http.GetAsync("/health/ready");
            return answer.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }
}
