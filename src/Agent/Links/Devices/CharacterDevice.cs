using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Links.Devices;

/// <summary>An opened character device, ours alone among the programs that lock as we do (flock(2)). For one thread.</summary>
internal sealed class CharacterDevice : IDisposable
{
    private CharacterDevice(string path, SafeFileHandle file) => (Path, File) = (path, file);

    public string Path { get; }

    public SafeFileHandle File { get; }

    /// <summary>Never waits: not for a carrier, not for another program.</summary>
    /// <exception cref="LinkException">Absent, busy, forbidden, no character device.</exception>
    public static CharacterDevice Open(string path)
    {
        var descriptor = Libc.Open(path, Libc.ReadWrite | Libc.NoControllingTerminal | Libc.NonBlocking | Libc.CloseOnExec);
        if (descriptor < 0)
            throw DeviceFault.Opening(Marshal.GetLastPInvokeError(), path, DeviceStatus.Of(path), Environment.UserName);

        var file = new SafeFileHandle(descriptor, ownsHandle: true);
        try
        {
            // Asked of what was opened, not of the path, which may name something else by now.
            if (DeviceStatus.Of(file) is not { IsCharacterDevice: true })
                throw DeviceFault.NotADevice(path);
            if (Libc.Lock(file, Libc.LockExclusive | Libc.LockNonBlocking) != 0)
                throw DeviceFault.Opening(Marshal.GetLastPInvokeError(), path, null, Environment.UserName);
            return new(path, file);
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <summary>Waits until there is something to read, or the device is gone; false if woken or out of time first.</summary>
    /// <param name="timeout">Null: as long as it takes, without a single wake-up.</param>
    public bool WaitReadable(WakeUp wake, TimeSpan? timeout)
    {
        Span<Libc.PollEntry> entries =
        [
            new() { Descriptor = (int)File.DangerousGetHandle(), Wanted = Libc.PollIn },
            new() { Descriptor = (int)wake.Descriptor.DangerousGetHandle(), Wanted = Libc.PollIn },
        ];
        // Rounded up: a wait cut short would be followed by a second one of nothing.
        var milliseconds = timeout is { } limit ? (int)Math.Clamp(Math.Ceiling(limit.TotalMilliseconds), 0, int.MaxValue) : -1;
        if (Libc.Poll(entries, 2, milliseconds) < 0)
            return Marshal.GetLastPInvokeError() == Libc.Interrupted ? false : throw Lost();
        // A hang-up is seen by the read that follows, after the bytes that came before it.
        return entries[1].Happened == 0 && entries[0].Happened != 0;
    }

    /// <summary>How many bytes were there; 0 if none after all.</summary>
    /// <exception cref="LinkException">The device is gone.</exception>
    public int Read(Span<byte> buffer)
    {
        var read = Libc.Read(File, buffer, buffer.Length);
        return read switch
        {
            > 0 => (int)read,
            0 => throw DeviceFault.Lost(Path, "hang-up"),
            _ when Marshal.GetLastPInvokeError() is Libc.Again or Libc.Interrupted => 0,
            _ => throw Lost(),
        };
    }

    /// <summary>All or nothing.</summary>
    /// <exception cref="LinkException">The device is gone, or takes nothing more.</exception>
    public void Write(ReadOnlySpan<byte> bytes)
    {
        var written = Libc.Write(File, bytes, bytes.Length);
        if (written < 0 && Marshal.GetLastPInvokeError() is not Libc.Again)
            throw Lost();
        if (written != bytes.Length)
            throw DeviceFault.Lost(Path, "it takes no commands");
    }

    public void Dispose() => File.Dispose();

    private LinkException Lost() => DeviceFault.Lost(Path, DeviceFault.Text(Marshal.GetLastPInvokeError()));
}
