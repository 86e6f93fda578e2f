using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Acceptance.Tests.Bench;

/// <summary>The few calls of the system that a test bench needs and .NET does not have. Linux, x64 and arm64.</summary>
internal static partial class Libc
{
    public const int ReadWrite = 0x2, NoControllingTerminal = 0x100, NonBlocking = 0x800, CloseOnExec = 0x80000;

    private const int SigTerm = 15, LockExclusive = 2, LockNonBlocking = 4, LimitFileSize = 1;

    public static void Terminate(int process) => Checked(Kill(process, SigTerm));

    /// <summary>Opens a device and locks it, as another program that uses it would.</summary>
    public static SafeFileHandle Hold(string device)
    {
        var file = new SafeFileHandle((int)Checked(Open(device, ReadWrite | NoControllingTerminal | CloseOnExec)), ownsHandle: true);
        Checked(Lock(file, LockExclusive | LockNonBlocking));
        return file;
    }

    /// <summary>The largest size that a file may be written to by a process from now on; null: as large as it may ever be.</summary>
    public static void LimitFileSizeOf(int process, ulong? bytes)
    {
        Checked(ResourceLimit(process, LimitFileSize, 0, out var now));
        now.Soft = bytes ?? now.Hard;
        Checked(ResourceLimit(process, LimitFileSize, in now, 0));
    }

    public static nint Checked(nint result) =>
        result >= 0 ? result : throw new IOException(Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError()));

    [LibraryImport("libc", EntryPoint = "posix_openpt", SetLastError = true)]
    public static partial int OpenPseudoTerminal(int flags);

    [LibraryImport("libc", EntryPoint = "grantpt", SetLastError = true)]
    public static partial int Grant(SafeFileHandle master);

    [LibraryImport("libc", EntryPoint = "unlockpt", SetLastError = true)]
    public static partial int Unlock(SafeFileHandle master);

    [LibraryImport("libc", EntryPoint = "ptsname_r")]
    public static partial int NameOf(SafeFileHandle master, Span<byte> name, nint length);

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    public static partial nint Read(SafeFileHandle file, Span<byte> buffer, nint length);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    public static partial nint Write(SafeFileHandle file, ReadOnlySpan<byte> buffer, nint length);

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "flock", SetLastError = true)]
    private static partial int Lock(SafeFileHandle file, int operation);

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static partial int Kill(int process, int signal);

    [LibraryImport("libc", EntryPoint = "prlimit", SetLastError = true)]
    private static partial int ResourceLimit(int process, int resource, nint anew, out Limit old);

    [LibraryImport("libc", EntryPoint = "prlimit", SetLastError = true)]
    private static partial int ResourceLimit(int process, int resource, in Limit anew, nint old);

    [StructLayout(LayoutKind.Sequential)]
    private struct Limit
    {
        public ulong Soft;
        public ulong Hard;
    }
}
