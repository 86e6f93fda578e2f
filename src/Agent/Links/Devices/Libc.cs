using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Links.Devices;

/// <summary>The system calls that character devices need, for Linux on x64 and arm64, which share these numbers (Linux headers, asm-generic).</summary>
internal static partial class Libc
{
    public const int ReadWrite = 0x2, NoControllingTerminal = 0x100, NonBlocking = 0x800, CloseOnExec = 0x80000;
    public const int LockExclusive = 2, LockNonBlocking = 4;
    public const short PollIn = 0x1, PollError = 0x8, PollHangUp = 0x10, PollInvalid = 0x20;

    public const int NotPermitted = 1, NoEntry = 2, Interrupted = 4, InputOutput = 5, NoSuchAddress = 6, Again = 11, Access = 13,
        Busy = 16, NoDevice = 19, NotDirectory = 20, IsDirectory = 21, NotTerminal = 25;

    private const string Library = "libc";

    [LibraryImport(Library, EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    public static partial int Open(string path, int flags);

    [LibraryImport(Library, EntryPoint = "flock", SetLastError = true)]
    public static partial int Lock(SafeFileHandle file, int operation);

    [LibraryImport(Library, EntryPoint = "read", SetLastError = true)]
    public static partial nint Read(SafeFileHandle file, Span<byte> buffer, nint length);

    [LibraryImport(Library, EntryPoint = "write", SetLastError = true)]
    public static partial nint Write(SafeFileHandle file, ReadOnlySpan<byte> buffer, nint length);

    [LibraryImport(Library, EntryPoint = "poll", SetLastError = true)]
    public static partial int Poll(Span<PollEntry> entries, nuint count, int timeoutMilliseconds);

    [LibraryImport(Library, EntryPoint = "eventfd", SetLastError = true)]
    public static partial int EventDescriptor(uint initial, int flags);

    [LibraryImport(Library, EntryPoint = "statx", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    public static partial int Status(int directory, string path, int flags, uint mask, Span<byte> status);

    [LibraryImport(Library, EntryPoint = "statx", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    public static partial int Status(SafeFileHandle file, string path, int flags, uint mask, Span<byte> status);

    [StructLayout(LayoutKind.Sequential)]
    public struct PollEntry
    {
        public int Descriptor;
        public short Wanted;
        public short Happened;
    }
}
