using System.Threading.Channels;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Links;

/// <summary>One opened connection. Disposing it closes it at once, or as soon as the device lets go.</summary>
internal interface ISession : IAsyncDisposable
{
    /// <summary>What a person should know about a connection that works all the same; null if nothing.</summary>
    string? Remark { get; }

    /// <summary>Writes out what the device sends. Returns if the connection should be opened anew without a word (a watchdog);
    /// throws <see cref="LinkException"/> when the device is lost, <see cref="OperationCanceledException"/> on <paramref name="stop"/>.</summary>
    Task ListenAsync(ChannelWriter<TraceRecord> output, CancellationToken stop);
}

/// <summary>Opens connections to one device, as often as it is asked.</summary>
internal interface ISessionSource
{
    /// <summary>Open means that the device is there: for a wire, that the port is open; for radio, that the first bytes have come.</summary>
    /// <param name="afterSilence">The session before this one ended because the device said nothing.</param>
    /// <exception cref="LinkException">It cannot be opened now.</exception>
    Task<ISession> OpenAsync(bool afterSilence, CancellationToken stop);
}
