using System.Threading.Channels;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Hosting;

/// <summary>One device's way into the shared queue. Never makes a link wait: what does not fit is counted, and the loss is told.</summary>
/// <remarks>
/// After a loss the core is told that the link was down and is up again, so that a placing under way is judged as one with a
/// lost link; and what is left of the line that was torn is dropped, because half a weight or half a code can look like a whole one.
/// One link writes.
/// </remarks>
internal sealed class LinkQueue(string device, ChannelWriter<TraceRecord> shared, TimeProvider time) : ChannelWriter<TraceRecord>
{
    private readonly TaskCompletionSource spoken = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private long lost;
    private long lostNow;
    private bool lineTorn;
    private bool isUp;

    /// <summary>Records lost since the start.</summary>
    public long Lost => Interlocked.Read(ref lost);

    /// <summary>Ends with the link's first record: it has opened its device, or has said why it cannot.</summary>
    public Task Spoken => spoken.Task;

    public override bool TryWrite(TraceRecord item)
    {
        isUp = item.Link is { } link ? link is LinkChange.Up : isUp;
        if (!Put(item))
        {
            Interlocked.Increment(ref lost);
            lostNow++;
            lineTorn = true;
        }

        spoken.TrySetResult();
        return true;
    }

    public override ValueTask<bool> WaitToWriteAsync(CancellationToken cancellationToken = default) =>
        cancellationToken.IsCancellationRequested ? ValueTask.FromCanceled<bool>(cancellationToken) : ValueTask.FromResult(true);

    private bool Put(TraceRecord record)
    {
        if (lostNow > 0 && !TellLoss())
            return false;
        if (!lineTorn)
            return shared.TryWrite(record);

        // A new connection starts with whole lines; bytes with a source are whole packets.
        if (record.Link is not null || record.Source is not null)
        {
            lineTorn = record.Link is null && lineTorn;
            return shared.TryWrite(record);
        }

        var end = record.Bytes.Span.IndexOfAny((byte)'\r', (byte)'\n');
        if (end < 0)
            return true;

        lineTorn = false;
        return shared.TryWrite(record with { Bytes = record.Bytes[(end + 1)..] });
    }

    private bool TellLoss()
    {
        var now = time.GetUtcNow();
        var down = new TraceRecord(now, device, Link: LinkChange.Down, Detail: $"The computer did not keep up: {lostNow} pieces of what '{device}' sent were lost. Weigh again what lies on the pan.", Cause: LinkCause.Overrun);
        if (!shared.TryWrite(down))
            return false;

        lostNow = 0;
        if (isUp && !shared.TryWrite(new TraceRecord(now, device, Link: LinkChange.Up)))
            lostNow = 1;
        return lostNow == 0;
    }
}
