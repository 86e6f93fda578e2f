using System.Threading.Channels;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Links.Devices;

/// <summary>Makes records of what a character device gives at one reading.</summary>
/// <param name="bytes">Whole packets, as the kernel gives them.</param>
/// <param name="at">When they were there to be read.</param>
/// <param name="elapsed">Monotonic, since the device was opened.</param>
/// <param name="records">Where they go.</param>
internal delegate void DeviceReading(ReadOnlySpan<byte> bytes, DateTimeOffset at, TimeSpan elapsed, List<TraceRecord> records);

/// <summary>A device that gives whole packets: keyboards and HID reports. One thread, asleep in poll(2) until there is something to read.</summary>
/// <param name="bufferSize">A multiple of a packet.</param>
internal sealed class DeviceSession(CharacterDevice device, int bufferSize, DeviceReading reading, TimeProvider time) : ISession
{
    private readonly List<TraceRecord> records = [];

    public string? Remark => null;

    // A thread of its own: poll(2) blocks for hours, which a pool thread must not.
    public Task ListenAsync(ChannelWriter<TraceRecord> output, CancellationToken stop) =>
        Task.Factory.StartNew(() => Listen(output, stop), stop, TaskCreationOptions.LongRunning, TaskScheduler.Default);

    public ValueTask DisposeAsync()
    {
        device.Dispose();
        return ValueTask.CompletedTask;
    }

    private void Listen(ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        using var wake = new WakeUp();
        using var stopping = stop.UnsafeRegister(static state => ((WakeUp)state!).Signal(), wake);
        var buffer = new byte[bufferSize];
        var started = time.GetTimestamp();
        while (true)
        {
            var readable = device.WaitReadable(wake, null);
            stop.ThrowIfCancellationRequested();
            if (!readable || device.Read(buffer) is not (> 0 and var read))
                continue;
            records.Clear();
            reading(buffer.AsSpan(0, read), time.GetUtcNow(), time.GetElapsedTime(started), records);
            foreach (var record in records)
            {
                if (!output.TryWrite(record))
                    output.WriteAsync(record, stop).AsTask().GetAwaiter().GetResult();
            }
        }
    }
}
