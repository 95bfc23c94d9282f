using ClimateGuard.Worker.Commands;

namespace ClimateGuard.Worker.Demo;

/// <summary>Hands the inspection results of the week to the worker as <c>climateguard results</c> does: over HTTP, into the ledger, for the score.</summary>
internal sealed class InspectionClerk(DemoDesk desk, Uri worker) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);
    private const int MostTries = 60;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var file = await desk.ResultsWritten.WaitAsync(stoppingToken);
        for (var tries = 1; ; tries++)
        {
            var (taken, words) = await HandOverAsync(file, stoppingToken);
            desk.ResultsTaken = words;
            if (taken || tries == MostTries)
            {
                Console.Error.WriteLine($"  Inspection results, {file}: {words}");
                return;
            }

            // A week that is joined later than its inspection is not decided for yet.
            await Task.Delay(Pause, stoppingToken);
        }
    }

    private async Task<(bool Taken, string Words)> HandOverAsync(string file, CancellationToken cancellation)
    {
        try
        {
            var (taken, text) = await ResultsUpload.SendAsync(worker, file, cancellation);
            return (taken, taken ? ResultsUpload.Words(text) : $"Not taken in: {ResultsUpload.Refusal(text)}");
        }
        catch (Exception failure) when (failure is HttpRequestException or IOException or TaskCanceledException && !cancellation.IsCancellationRequested)
        {
            return (false, $"Not taken in: {failure.Message}");
        }
    }
}
