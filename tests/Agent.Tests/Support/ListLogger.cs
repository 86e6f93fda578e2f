using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Tests.Support;

/// <summary>Keeps what was logged.</summary>
internal sealed class ListLogger : ILogger
{
    private readonly ConcurrentQueue<(LogLevel Level, string Text)> lines = new();

    public IReadOnlyList<string> At(LogLevel level) => [.. lines.Where(line => line.Level == level).Select(line => line.Text)];

    public IDisposable? BeginScope<TState>(TState state) where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
        lines.Enqueue((logLevel, formatter(state, exception)));
}
