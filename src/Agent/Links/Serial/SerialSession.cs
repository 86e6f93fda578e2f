using System.Threading.Channels;
using CaptureAgent.Agent.Links.Devices;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Links.Serial;

/// <summary>Reads an open port, and asks where the scale wants to be asked. One thread, asleep in poll(2) until there is something to do.</summary>
internal sealed class SerialSession(
    CharacterDevice port, ISerialPortControl control, SerialPlan plan, TimeProvider time, string? remark, bool afterSilence) : ISession
{
    // Longer than any gap within a line, at any speed that scales use.
    private static readonly TimeSpan BetweenLines = TimeSpan.FromSeconds(1);

    // Many adapters hand on a line byte by byte, each a millisecond after the other. To wake for each would cost several times
    // the work of the whole agent; a rest in mid-line costs the line's end at most this much.
    private const int MidLineRestMilliseconds = 4;

    private readonly FirstLineGate gate = new(plan.DropsFirstLine);
    private readonly DamageMarks marks = new();
    private readonly byte[] buffer = new byte[4096];
    private long heard = time.GetTimestamp();

    public string? Remark => remark;

    // A thread of its own: poll(2) blocks for hours, which a pool thread must not.
    public Task ListenAsync(ChannelWriter<TraceRecord> output, CancellationToken stop) =>
        Task.Factory.StartNew(() => Listen(output, stop), stop, TaskCreationOptions.LongRunning, TaskScheduler.Default);

    public ValueTask DisposeAsync()
    {
        control.Discard(port);
        port.Dispose();
        return ValueTask.CompletedTask;
    }

    private void Listen(ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        using var wake = new WakeUp();
        using var stopping = stop.UnsafeRegister(static state => ((WakeUp)state!).Signal(), wake);
        var asking = plan.AskEvery is { } period ? new Cadence(period, time) : null;
        while (true)
        {
            var readable = port.WaitReadable(wake, Earlier(asking?.Remaining, plan.ReopenAfter - time.GetElapsedTime(heard)));
            var at = time.GetUtcNow();
            stop.ThrowIfCancellationRequested();
            if (readable && port.Read(buffer) is > 0 and var read)
            {
                // A device that was silent until now is not in the middle of a line.
                if (afterSilence && time.GetElapsedTime(heard) > BetweenLines)
                    gate.Open();
                afterSilence = false;
                heard = time.GetTimestamp();
                var midLine = buffer[read - 1] is not ((byte)'\r' or (byte)'\n' or (byte)'\t');
                Emit(buffer.AsSpan(0, read), at, output, stop);
                if (midLine)
                    wake.Rest(MidLineRestMilliseconds);
            }
            else if (plan.ReopenAfter is { } limit && time.GetElapsedTime(heard) >= limit)
            {
                return;
            }

            if (asking is not null && asking.TryTake())
                port.Write(RequestReply.AskNow);
        }
    }

    private void Emit(Span<byte> bytes, DateTimeOffset at, ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        var passed = gate.Pass(bytes[..marks.Remove(bytes)]);
        if (passed.IsEmpty)
            return;
        var record = new TraceRecord(at, plan.Device, passed.ToArray());
        if (!output.TryWrite(record))
            output.WriteAsync(record, stop).AsTask().GetAwaiter().GetResult();
    }

    private static TimeSpan? Earlier(TimeSpan? one, TimeSpan? other) =>
        one is { } first && other is { } second ? first < second ? first : second : one ?? other;
}
