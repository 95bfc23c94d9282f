using System.Security.Cryptography;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Says so when the settings file was changed: unlike the plant file it takes effect with a restart only.</summary>
internal sealed class SettingsFileWatch(WorkerPlan plan, ILogger<SettingsFileWatch> logger) : BackgroundService
{
    private static readonly TimeSpan Pace = TimeSpan.FromSeconds(5);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (plan.SettingsFile is not { } file)
        {
            return;
        }

        var begun = Content(file);
        var told = begun;
        using var timer = new PeriodicTimer(Pace);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            if (Content(file) is { } now && now != told)
            {
                told = now;
                logger.LogWarning("{Sentence}", now == begun
                    ? $"{file} is again as it was at the start."
                    : $"{file} was changed; settings take effect with a restart of the worker. Until then those of the start stay in force.");
            }
        }
    }

    /// <summary>Null when it cannot be read at this moment.</summary>
    private static string? Content(string file)
    {
        try
        {
            return Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file)));
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
