using System.Runtime.InteropServices;
using System.Text;

namespace CaptureAgent.Simulators.Instruments.Terminals;

/// <summary>The instrument's end of a pseudo-terminal. The other end is a device file that a program opens like a serial port.</summary>
/// <remarks>
/// Bytes written while nobody has the device open are lost, as on a real line: no reader ever gets stale ones.
/// Disposing hangs up on the reader. One thread at a time.
/// </remarks>
public sealed class PseudoTerminal : IDisposable
{
    private readonly int master;
    private bool closed;

    private PseudoTerminal(int master, string devicePath)
    {
        this.master = master;
        DevicePath = devicePath;
    }

    /// <summary>Such as <c>/dev/pts/7</c>.</summary>
    public string DevicePath { get; }

    /// <summary>Whether some program has the device open.</summary>
    public bool HasReader => (Poll(0) & NativeMethods.PollHangUp) == 0;

    /// <exception cref="IOException">The system gives no pseudo-terminal.</exception>
    public static PseudoTerminal Open()
    {
        var master = NativeMethods.OpenMaster(NativeMethods.ReadWrite | NativeMethods.NoControllingTerminal | NativeMethods.CloseOnExec);
        Check(master, "open a pseudo-terminal");
        try
        {
            Check(NativeMethods.Grant(master), "grant the pseudo-terminal");
            Check(NativeMethods.Unlock(master), "unlock the pseudo-terminal");
            var path = NameOf(master);
            MakeRaw(path);
            Check(NativeMethods.Control(master, 4 /* F_SETFL */, NativeMethods.NonBlocking), "make the pseudo-terminal non-blocking");
            return new(master, path);
        }
        catch
        {
            _ = NativeMethods.Close(master);
            throw;
        }
    }

    /// <summary>Sends bytes to the reader; gives how many were taken (none without a reader, fewer where it does not read).</summary>
    public int Write(ReadOnlySpan<byte> bytes)
    {
        if (closed || bytes.IsEmpty || !HasReader)
            return 0;
        return (int)Math.Max(0, NativeMethods.Write(master, bytes, (nuint)bytes.Length));
    }

    /// <summary>Takes what the program has sent, without waiting; 0 where there is nothing.</summary>
    public int Read(Span<byte> buffer)
    {
        if (closed || (Poll(0) & NativeMethods.PollIn) == 0)
            return 0;
        return (int)Math.Max(0, NativeMethods.Read(master, buffer, (nuint)buffer.Length));
    }

    public void Dispose()
    {
        if (closed)
            return;
        closed = true;
        _ = NativeMethods.Close(master);
    }

    private short Poll(int milliseconds)
    {
        var request = new NativeMethods.PollRequest { Descriptor = master, Wanted = NativeMethods.PollIn };
        return NativeMethods.Poll(ref request, 1, milliseconds) > 0 ? request.Seen : (short)0;
    }

    private static string NameOf(int master)
    {
        Span<byte> name = stackalloc byte[128];
        var failure = NativeMethods.SlaveName(master, name, (nuint)name.Length);
        return failure == 0
            ? Encoding.UTF8.GetString(name[..name.IndexOf((byte)0)])
            : throw new IOException($"Cannot name the pseudo-terminal: {Marshal.GetPInvokeErrorMessage(failure)}.");
    }

    // Opened and closed once: from then on the master reports a hang-up while nobody has the device.
    private static void MakeRaw(string path)
    {
        var slave = NativeMethods.Open(path, NativeMethods.ReadWrite | NativeMethods.NoControllingTerminal | NativeMethods.CloseOnExec);
        Check(slave, $"open {path}");
        Span<byte> termios = stackalloc byte[NativeMethods.TermiosBytes];
        termios.Clear();
        Check(NativeMethods.GetAttributes(slave, termios), $"read the settings of {path}");
        NativeMethods.MakeRaw(termios);
        Check(NativeMethods.SetAttributes(slave, 0, termios), $"set {path} to raw");
        _ = NativeMethods.Close(slave);
    }

    private static void Check(int result, string what)
    {
        if (result < 0)
            throw new IOException($"Cannot {what}: {Marshal.GetLastPInvokeErrorMessage()}.");
    }
}
