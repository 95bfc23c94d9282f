using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Commands;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Starts a host, says where its pages are, and waits until it is stopped.</summary>
internal static class HostRun
{
    public static async Task<int> UntilStoppedAsync(WebApplication app, string greeting, CancellationToken cancellation)
    {
        await using (app)
        {
            try
            {
                await app.StartAsync(cancellation);
            }
            catch (StoreUnavailableException unavailable)
            {
                await Console.Error.WriteLineAsync($"climateguard: {unavailable.Message}");
                return CommandLine.BadInput;
            }
            catch (IOException occupied)
            {
                await Console.Error.WriteLineAsync(
                    $"climateguard: {occupied.Message} Stop the other program, or set CLIMATEGUARD_Http__Urls=http://127.0.0.1:5081.");
                return CommandLine.BadInput;
            }

            await Console.Error.WriteLineAsync(greeting);
            await app.WaitForShutdownAsync(cancellation);
            return CommandLine.Done;
        }
    }
}
