using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Hosting;

/// <summary>Runs one link. A fault of the program in one link must not take the other devices with it: it is told, and the link starts anew.</summary>
internal sealed partial class LinkRunner(ILink link, LinkQueue queue, TimeProvider time, ILogger logger)
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(30);

    public LinkQueue Queue => queue;

    public async Task RunAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await link.RunAsync(queue, stop);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
#pragma warning disable CA1031 // Whatever it is, it concerns this device alone.
            catch (Exception fault)
#pragma warning restore CA1031
            {
                LogFault(fault, link.Device);
                queue.TryWrite(new TraceRecord(
                    time.GetUtcNow(), link.Device, Link: LinkChange.Down, Detail: $"A fault of the program ({fault.Message}); '{link.Device}' is tried again in {Pause.TotalSeconds:0} s."));
                await Task.Delay(Pause, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    [LoggerMessage(110, LogLevel.Critical, "{Device}: a fault of the program; the other devices go on")]
    private partial void LogFault(Exception fault, string device);
}
