using System.Diagnostics;

namespace ClimateGuard.SystemTests.Support;

/// <summary>Waits for what comes by itself, on a busy machine too.</summary>
public static class Eventually
{
    public static async Task UntilAsync(Func<Task<bool>> reached, string what)
    {
        var patience = Stopwatch.StartNew();
        while (!await reached())
        {
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(60), $"not reached: {what}");
            await Task.Delay(100);
        }
    }
}
