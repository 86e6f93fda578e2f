using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Devices;

namespace CaptureAgent.Agent.Links.Keyboard;

/// <summary>A scanner that types, as most do when they are plugged in: its keys become lines, and go nowhere else.</summary>
internal sealed class KeyboardSessions : ISessionSource
{
    private const int EventsAtOnce = 64;

    private readonly TimeProvider time;
    private readonly string device, path;

    /// <exception cref="ArgumentException">The connection has no path.</exception>
    public KeyboardSessions(DeviceOptions device, ConnectionOptions connection, TimeProvider time)
    {
        (this.time, this.device) = (time, device.Id);
        path = ConnectionParts.Required(device, connection.Path, "path", "a keyboard");
    }

    public Task<ISession> OpenAsync(bool afterSilence, CancellationToken stop)
    {
        var opened = CharacterDevice.Open(path);
        try
        {
            KeyboardControl.Take(opened);
            // Closing the descriptor gives the keyboard back.
            return Task.FromResult<ISession>(new DeviceSession(opened, TypedLine.EventSize * EventsAtOnce, NewReading(), time));
        }
        catch
        {
            opened.Dispose();
            throw;
        }
    }

    // The kernel gives whole events only.
    private DeviceReading NewReading()
    {
        var typed = new TypedLine();
        return (bytes, at, elapsed, records) =>
        {
            for (; bytes.Length >= TypedLine.EventSize; bytes = bytes[TypedLine.EventSize..])
            {
                if (typed.Take(bytes[..TypedLine.EventSize], elapsed) is { } line)
                    records.Add(new(at, device, line));
            }
        };
    }
}
