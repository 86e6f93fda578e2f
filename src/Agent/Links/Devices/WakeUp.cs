using System.ComponentModel;
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Links.Devices;

/// <summary>Ends a wait in poll(2) from another thread (eventfd(2)). Once woken it stays so.</summary>
internal sealed class WakeUp : IDisposable
{
    private readonly SafeFileHandle descriptor;

    public WakeUp()
    {
        var opened = Libc.EventDescriptor(0, Libc.NonBlocking | Libc.CloseOnExec);
        if (opened < 0)
            throw new Win32Exception(Marshal.GetLastPInvokeError(), "No event descriptor; raise the limit of open files.");
        descriptor = new(opened, ownsHandle: true);
    }

    public SafeFileHandle Descriptor => descriptor;

    // It can fail only if it has been signalled already.
    public void Signal() => Libc.Write(descriptor, BitConverter.GetBytes(1UL), sizeof(ulong));

    public void Dispose() => descriptor.Dispose();
}
