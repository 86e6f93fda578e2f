using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Links.Devices;

/// <summary>Ends a wait in poll(2) from another thread (eventfd(2)). Once woken it stays so.</summary>
internal sealed class WakeUp : IDisposable
{
    private readonly SafeFileHandle descriptor;

    /// <exception cref="LinkException">The system has none left.</exception>
    public WakeUp()
    {
        var opened = Libc.EventDescriptor(0, Libc.NonBlocking | Libc.CloseOnExec);
        if (opened < 0)
            throw new LinkException(
                LinkCause.Overrun, $"The system gives no event descriptor ({DeviceFault.Text(Marshal.GetLastPInvokeError())}).", "Raise the agent's limit of open files.");
        descriptor = new(opened, ownsHandle: true);
    }

    public SafeFileHandle Descriptor => descriptor;

    // It can fail only if it has been signalled already.
    public void Signal() => Libc.Write(descriptor, BitConverter.GetBytes(1UL), sizeof(ulong));

    /// <summary>Waits for as long as given, or until woken.</summary>
    public void Rest(int milliseconds)
    {
        Span<Libc.PollEntry> entry = [new() { Descriptor = (int)descriptor.DangerousGetHandle(), Wanted = Libc.PollIn }];
        _ = Libc.Poll(entry, 1, milliseconds);
    }

    public void Dispose() => descriptor.Dispose();
}
