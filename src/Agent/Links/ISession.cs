using System.Threading.Channels;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Links;

/// <summary>One opened connection. Disposing it closes it at once.</summary>
internal interface ISession : IDisposable
{
    /// <summary>What a person should know about a connection that works all the same; null if nothing.</summary>
    string? Remark { get; }

    /// <summary>Writes out what the device sends. Returns if the port should be opened anew without a word (a watchdog);
    /// throws <see cref="LinkException"/> when the device is lost, <see cref="OperationCanceledException"/> on <paramref name="stop"/>.</summary>
    Task ListenAsync(ChannelWriter<TraceRecord> output, CancellationToken stop);
}

/// <summary>Opens connections to one device, as often as it is asked.</summary>
internal interface ISessionSource
{
    /// <param name="afterSilence">The session before this one ended because the device said nothing.</param>
    /// <exception cref="LinkException">It cannot be opened now.</exception>
    ISession Open(bool afterSilence);
}
