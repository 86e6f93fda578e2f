using System.Runtime.InteropServices;
using CaptureAgent.Agent.Links.Devices;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Links.Serial;

/// <summary>The kernel's own calls (ioctl_tty(2)). System.IO.Ports is not used: it sets mark and space parity as none, drops DTR
/// or cannot open a port without modem lines, and each write of it keeps a 1 ms poll loop alive.</summary>
internal sealed partial class SerialPortControl : ISerialPortControl
{
    private const nuint GetTermios = 0x802C542A, SetTermios = 0x402C542B, Flush = 0x540B, RaiseLines = 0x5416;
    private const nint InputQueue = 0, BothQueues = 2;
    private const int DataTerminalReady = 0x2, RequestToSend = 0x4;

    public IReadOnlyList<string> SetUp(CharacterDevice port, SerialSettings settings)
    {
        var wanted = Termios.For(settings);
        if (Control(port.File, SetTermios, ref wanted) != 0)
            throw Refused(port);
        var applied = default(Termios);
        if (Control(port.File, GetTermios, ref applied) != 0)
            throw Refused(port);

        // Pseudo-terminals and some adapters have no modem lines; they work without.
        var lines = DataTerminalReady | RequestToSend;
        _ = Control(port.File, RaiseLines, ref lines);
        if (Control(port.File, Flush, InputQueue) != 0)
            throw Refused(port);
        return [.. wanted.DifferencesTo(applied)];
    }

    // A port that is gone has nothing to throw away.
    public void Discard(CharacterDevice port) => _ = Control(port.File, Flush, BothQueues);

    private static LinkException Refused(CharacterDevice port) => Marshal.GetLastPInvokeError() switch
    {
        Libc.NotTerminal => DeviceFault.NotSerial(port.Path),
        var error => DeviceFault.Opening(error, port.Path, null, Environment.UserName),
    };

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(SafeFileHandle file, nuint request, ref Termios termios);

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(SafeFileHandle file, nuint request, ref int lines);

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(SafeFileHandle file, nuint request, nint queue);
}
