using System.Threading.Channels;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Links;

/// <summary>Whether the device is there. One record per change of state or of reason; two log lines per outage, however many tries it takes.</summary>
internal sealed partial class LinkState(string device, ChannelWriter<TraceRecord> output, TimeProvider time, ILogger logger)
{
    private LinkChange? state;
    private string? reason;
    private bool isAbsent;
    private bool warned;

    /// <summary>Open. Said at once to the core, but to the log only when it has proven itself.</summary>
    public async ValueTask UpAsync(string? remark, CancellationToken stop)
    {
        // A watchdog opened the port anew: for everyone else it has never been away.
        if (state == LinkChange.Up)
            return;
        (state, reason) = (LinkChange.Up, null);
        await output.WriteAsync(new(time.GetUtcNow(), device, Link: LinkChange.Up, Detail: remark), stop);
    }

    /// <summary>The connection has lasted long enough to end an outage.</summary>
    public void Proven(string? remark)
    {
        if (!warned)
            return;
        warned = false;
        LogConnected(device, remark ?? "all is well");
    }

    public async ValueTask DownAsync(LinkException cause, CancellationToken stop)
    {
        // What was unplugged or went out of range is not there: one outage, told once.
        if (state == LinkChange.Down && (reason == cause.Detail || (isAbsent && cause.IsAbsence)))
            return;
        isAbsent = cause.IsAbsence || state == LinkChange.Up;
        (state, reason) = (LinkChange.Down, cause.Detail);
        if (warned)
            LogStillLost(device, cause.Detail);
        else
            LogLost(device, cause.Detail);
        warned = true;
        await output.WriteAsync(new(time.GetUtcNow(), device, Link: LinkChange.Down, Detail: cause.Detail, Cause: cause.Cause), stop);
    }

    [LoggerMessage(100, LogLevel.Information, "{Device}: connected again; {Remark}")]
    private partial void LogConnected(string device, string remark);

    [LoggerMessage(101, LogLevel.Warning, "{Device}: no connection. {Reason}")]
    private partial void LogLost(string device, string reason);

    [LoggerMessage(102, LogLevel.Debug, "{Device}: still no connection. {Reason}")]
    private partial void LogStillLost(string device, string reason);
}
