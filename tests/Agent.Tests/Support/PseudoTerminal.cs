using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Tests.Support;

/// <summary>A real pseudo-terminal (pty(7)): the test is the instrument at its one end, the agent opens the other as a serial port.</summary>
internal sealed partial class PseudoTerminal : IDisposable
{
    private const int ReadWrite = 0x2, NoControllingTerminal = 0x100, CloseOnExec = 0x80000;
    private readonly SafeFileHandle master;

    public PseudoTerminal()
    {
        master = new(Checked(OpenMaster(ReadWrite | NoControllingTerminal | CloseOnExec)), ownsHandle: true);
        Checked(Grant(master));
        Checked(Unlock(master));
        Span<byte> name = stackalloc byte[128];
        if (Name(master, name, name.Length) != 0)
            throw new IOException("The pseudo-terminal has no name.");
        Path = Encoding.UTF8.GetString(name[..name.IndexOf((byte)0)]);
    }

    /// <summary>What the agent opens.</summary>
    public string Path { get; }

    /// <summary>The instrument sends.</summary>
    public void Send(string latin1) => Send(Encoding.Latin1.GetBytes(latin1));

    public void Send(ReadOnlySpan<byte> bytes)
    {
        while (!bytes.IsEmpty)
            bytes = bytes[(int)Checked(Write(master, bytes, bytes.Length))..];
    }

    /// <summary>What was sent to the instrument, in one piece or in part.</summary>
    public Task<string> ReceiveAsync(CancellationToken cancellationToken) => Task.Run(
        () =>
        {
            Span<byte> buffer = stackalloc byte[1024];
            Span<PollEntry> entry = [new() { Descriptor = (int)master.DangerousGetHandle(), Wanted = 1 }];
            for (var turn = 0; Poll(entry, 1, 20) == 0; turn++)
            {
                cancellationToken.ThrowIfCancellationRequested();
                if (turn == 1500)
                    throw new TimeoutException("Nothing was sent to the instrument in 30 s.");
            }

            return Encoding.Latin1.GetString(buffer[..(int)Checked(Read(master, buffer, buffer.Length))]);
        },
        cancellationToken);

    /// <summary>The cable is pulled.</summary>
    public void HangUp() => master.Dispose();

    public void Dispose() => master.Dispose();

    private static int Checked(int result) => (int)Checked((nint)result);

    private static nint Checked(nint result) =>
        result >= 0 ? result : throw new IOException(Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError()));

    [LibraryImport("libc", EntryPoint = "posix_openpt", SetLastError = true)]
    private static partial int OpenMaster(int flags);

    [LibraryImport("libc", EntryPoint = "grantpt", SetLastError = true)]
    private static partial int Grant(SafeFileHandle master);

    [LibraryImport("libc", EntryPoint = "unlockpt", SetLastError = true)]
    private static partial int Unlock(SafeFileHandle master);

    [LibraryImport("libc", EntryPoint = "ptsname_r")]
    private static partial int Name(SafeFileHandle master, Span<byte> name, nint length);

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    private static partial nint Read(SafeFileHandle file, Span<byte> buffer, nint length);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    private static partial nint Write(SafeFileHandle file, ReadOnlySpan<byte> buffer, nint length);

    [LibraryImport("libc", EntryPoint = "poll", SetLastError = true)]
    private static partial int Poll(Span<PollEntry> entries, nuint count, int timeoutMilliseconds);

    [StructLayout(LayoutKind.Sequential)]
    private struct PollEntry
    {
        public int Descriptor;
        public short Wanted;
        public short Happened;
    }
}
