using System.Runtime.InteropServices;

namespace CaptureAgent.Simulators.Instruments.Terminals;

/// <summary>The C library's calls for pseudo-terminals (POSIX.1, ptsname_r and cfmakeraw of glibc and musl). Constants: Linux on x64 and arm64.</summary>
internal static partial class NativeMethods
{
    public const int ReadWrite = 2;
    public const int NoControllingTerminal = 0x100;
    public const int NonBlocking = 0x800;
    public const int CloseOnExec = 0x80000;
    public const short PollIn = 1;
    public const short PollHangUp = 0x10;

    /// <summary>Larger than any termios: its inside is left to the C library.</summary>
    public const int TermiosBytes = 256;

    [LibraryImport("libc", EntryPoint = "posix_openpt", SetLastError = true)]
    public static partial int OpenMaster(int flags);

    [LibraryImport("libc", EntryPoint = "grantpt", SetLastError = true)]
    public static partial int Grant(int descriptor);

    [LibraryImport("libc", EntryPoint = "unlockpt", SetLastError = true)]
    public static partial int Unlock(int descriptor);

    [LibraryImport("libc", EntryPoint = "ptsname_r", SetLastError = true)]
    public static partial int SlaveName(int descriptor, Span<byte> buffer, nuint length);

    [LibraryImport("libc", EntryPoint = "open", StringMarshalling = StringMarshalling.Utf8, SetLastError = true)]
    public static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    public static partial int Close(int descriptor);

    [LibraryImport("libc", EntryPoint = "fcntl", SetLastError = true)]
    public static partial int Control(int descriptor, int command, int value);

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    public static partial nint Read(int descriptor, Span<byte> buffer, nuint length);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    public static partial nint Write(int descriptor, ReadOnlySpan<byte> buffer, nuint length);

    [LibraryImport("libc", EntryPoint = "poll", SetLastError = true)]
    public static partial int Poll(ref PollRequest request, nuint count, int timeoutMilliseconds);

    [LibraryImport("libc", EntryPoint = "tcgetattr", SetLastError = true)]
    public static partial int GetAttributes(int descriptor, Span<byte> termios);

    [LibraryImport("libc", EntryPoint = "tcsetattr", SetLastError = true)]
    public static partial int SetAttributes(int descriptor, int when, ReadOnlySpan<byte> termios);

    [LibraryImport("libc", EntryPoint = "cfmakeraw")]
    public static partial void MakeRaw(Span<byte> termios);

    [StructLayout(LayoutKind.Sequential)]
    public struct PollRequest
    {
        public int Descriptor;
        public short Wanted;
        public short Seen;
    }
}
