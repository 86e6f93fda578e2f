using System.Threading.Channels;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Devices;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Links.Keyboard;

/// <summary>A scanner that types, as most do when they are plugged in: its keys become lines, and go nowhere else.</summary>
internal sealed class KeyboardSessions : ISessionSource
{
    private readonly TimeProvider time;
    private readonly string device, path;

    /// <exception cref="ArgumentException">The connection has no path.</exception>
    public KeyboardSessions(DeviceOptions device, ConnectionOptions connection, TimeProvider time)
    {
        (this.time, this.device) = (time, device.Id);
        path = string.IsNullOrWhiteSpace(connection.Path)
            ? throw new ArgumentException($"Device \"{device.Id}\": connection.path is missing; a keyboard needs one.", nameof(device))
            : connection.Path;
    }

    public Task<ISession> OpenAsync(bool afterSilence, CancellationToken stop)
    {
        var opened = CharacterDevice.Open(path);
        try
        {
            KeyboardControl.Take(opened);
            return Task.FromResult<ISession>(new Session(opened, device, time));
        }
        catch
        {
            opened.Dispose();
            throw;
        }
    }

    // Closing the descriptor gives the keyboard back.
    private sealed class Session(CharacterDevice keyboard, string device, TimeProvider time) : ISession
    {
        private readonly TypedLine typed = new();
        private readonly byte[] buffer = new byte[TypedLine.EventSize * 64];

        public string? Remark => null;

        public Task ListenAsync(ChannelWriter<TraceRecord> output, CancellationToken stop) =>
            Task.Factory.StartNew(() => Listen(output, stop), stop, TaskCreationOptions.LongRunning, TaskScheduler.Default);

        public ValueTask DisposeAsync()
        {
            keyboard.Dispose();
            return ValueTask.CompletedTask;
        }

        private void Listen(ChannelWriter<TraceRecord> output, CancellationToken stop)
        {
            using var wake = new WakeUp();
            using var stopping = stop.UnsafeRegister(static state => ((WakeUp)state!).Signal(), wake);
            var started = time.GetTimestamp();
            while (true)
            {
                var readable = keyboard.WaitReadable(wake, null);
                stop.ThrowIfCancellationRequested();
                // The kernel gives whole events only.
                for (int at = 0, read = readable ? keyboard.Read(buffer) : 0; at + TypedLine.EventSize <= read; at += TypedLine.EventSize)
                {
                    if (typed.Take(buffer.AsSpan(at, TypedLine.EventSize), time.GetElapsedTime(started)) is not { } line)
                        continue;
                    var record = new TraceRecord(time.GetUtcNow(), device, line);
                    if (!output.TryWrite(record))
                        output.WriteAsync(record, stop).AsTask().GetAwaiter().GetResult();
                }
            }
        }
    }
}
