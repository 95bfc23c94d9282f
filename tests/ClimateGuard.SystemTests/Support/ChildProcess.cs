using System.Diagnostics;

namespace ClimateGuard.SystemTests.Support;

/// <summary>This test program started again as a process of its own, to be killed from outside. What it does there is said in its environment.</summary>
public abstract class ChildProcess : IDisposable
{
    private readonly Process process;

    /// <param name="role">The variable that makes the program play a role instead of running tests.</param>
    /// <param name="part">What it is told there.</param>
    protected ChildProcess(string role, string part)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(ChildProcess).Assembly.Location]) { RedirectStandardOutput = true };
        start.Environment[role] = part;
        process = Process.Start(start)!;
    }

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
        GC.SuppressFinalize(this);
    }
}
