using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.SystemTests.Support;

/// <summary>Keeps log lines for tests to read.</summary>
public sealed class LineLog
{
    private readonly ConcurrentQueue<string> lines = new();

    public IReadOnlyCollection<string> Lines => lines;

    public ILogger<T> For<T>() => new Logger<T>(this);

    private sealed class Logger<T>(LineLog log) : ILogger<T>
    {
        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(
            LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            log.lines.Enqueue($"{logLevel}: {formatter(state, exception)}");
    }
}
