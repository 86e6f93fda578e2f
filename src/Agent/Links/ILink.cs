using System.Threading.Channels;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Links;

/// <summary>The transport of one device: what it sends goes out as records, unchanged; what happens to its line, as Up and Down.</summary>
internal interface ILink
{
    /// <summary>The device's id in station.json.</summary>
    string Device { get; }

    /// <summary>Keeps the device connected, whatever happens to it, until <paramref name="stop"/>; then returns.
    /// Bytes carry the moment at which they were there to be read. A full output is waited for, never skipped.</summary>
    Task RunAsync(ChannelWriter<TraceRecord> output, CancellationToken stop);
}
