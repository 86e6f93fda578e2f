using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Hosting;

/// <summary>The trace of a run. A recording that fails ends; the round goes on.</summary>
internal sealed partial class TraceRecording(TraceWriter? writer, ILogger logger) : IDisposable
{
    private TraceWriter? writer = writer;

    public void Write(TraceRecord record) => writer?.Write(record);

    /// <summary>Hands over what was written.</summary>
    /// <returns>What ended the recording, if it ended now.</returns>
    public string? Flush()
    {
        try
        {
            writer?.Flush();
            return null;
        }
        catch (IOException failure)
        {
            LogEnded(failure.Message);
            Dispose();
            return failure.Message;
        }
    }

    public void Dispose()
    {
        writer?.Dispose();
        writer = null;
    }

    [LoggerMessage(300, LogLevel.Error, "The recording has ended, the round goes on: {Reason}")]
    private partial void LogEnded(string reason);
}
