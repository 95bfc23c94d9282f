using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace ClimateGuard.SystemTests.Support;

/// <summary>What a person at a terminal does: <c>mosquitto_pub</c> and <c>mosquitto_sub</c>.</summary>
public static class Shell
{
    public static async Task PublishAsync(int port, string topic, string payload)
    {
        using var run = Process.Start(new ProcessStartInfo(
            "mosquitto_pub", ["-h", "127.0.0.1", "-p", port.ToString(CultureInfo.InvariantCulture), "-q", "1", "-t", topic, "-m", payload]))!;
        await run.WaitForExitAsync();
        Assert.Equal(0, run.ExitCode);
    }

    /// <summary>Publishes the content of a file, for payloads no command line can hold.</summary>
    public static async Task PublishFileAsync(int port, string topic, string file)
    {
        using var run = Process.Start(new ProcessStartInfo(
            "mosquitto_pub", ["-h", "127.0.0.1", "-p", port.ToString(CultureInfo.InvariantCulture), "-q", "1", "-t", topic, "-f", file]))!;
        await run.WaitForExitAsync();
    }

    public static Listener Listen(int port, string topic) => new(port, topic);

    /// <summary>A <c>mosquitto_sub</c> with what it has printed so far.</summary>
    public sealed class Listener : IDisposable
    {
        private readonly Process process;
        private readonly ConcurrentQueue<(DateTimeOffset At, string Line)> lines = new();

        public Listener(int port, string topic)
        {
            process = Process.Start(new ProcessStartInfo(
                "mosquitto_sub", ["-h", "127.0.0.1", "-p", port.ToString(CultureInfo.InvariantCulture), "-q", "1", "-t", topic])
            {
                RedirectStandardOutput = true,
            })!;
            process.OutputDataReceived += (_, line) =>
            {
                if (line.Data is not null)
                {
                    lines.Enqueue((DateTimeOffset.UtcNow, line.Data));
                }
            };
            process.BeginOutputReadLine();
        }

        public IReadOnlyList<string> Lines => [.. lines.Select(pair => pair.Line)];

        /// <summary>The first message that is as wanted, and when it came.</summary>
        public async Task<(DateTimeOffset At, JsonElement Message)> UntilAsync(Func<JsonElement, bool> wanted, string what)
        {
            var patience = Stopwatch.StartNew();
            while (patience.Elapsed < TimeSpan.FromSeconds(20))
            {
                foreach (var (at, line) in lines)
                {
                    var message = JsonSerializer.Deserialize<JsonElement>(line);
                    if (wanted(message))
                    {
                        return (at, message);
                    }
                }

                await Task.Delay(10);
            }

            Assert.Fail($"no message {what}; heard: {string.Join('\n', Lines.TakeLast(5))}");
            throw new UnreachableException();
        }

        public void Dispose()
        {
            process.Kill();
            process.Dispose();
        }
    }
}
