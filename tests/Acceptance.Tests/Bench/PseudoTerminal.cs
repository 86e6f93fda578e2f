using System.Text;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Acceptance.Tests.Bench;

/// <summary>A real pseudo-terminal (pty(7)): the test is the instrument at one end, the agent opens the other. Never waits.</summary>
internal sealed class PseudoTerminal : IDisposable
{
    private readonly SafeFileHandle master;
    private readonly byte[] answers = new byte[4096];

    public PseudoTerminal()
    {
        var flags = Libc.ReadWrite | Libc.NoControllingTerminal | Libc.NonBlocking | Libc.CloseOnExec;
        master = new SafeFileHandle((int)Libc.Checked(Libc.OpenPseudoTerminal(flags)), ownsHandle: true);
        Libc.Checked(Libc.Grant(master));
        Libc.Checked(Libc.Unlock(master));
        Span<byte> name = stackalloc byte[128];
        if (Libc.NameOf(master, name, name.Length) != 0)
            throw new IOException("The pseudo-terminal has no name.");
        Path = Encoding.UTF8.GetString(name[..name.IndexOf((byte)0)]);
    }

    /// <summary>What the agent opens.</summary>
    public string Path { get; }

    /// <summary>What nobody takes is lost, as on a wire; what comes back (an echo, before the port is set up) is thrown away.</summary>
    public void Send(ReadOnlySpan<byte> bytes)
    {
        _ = Libc.Write(master, bytes, bytes.Length);
        while (Libc.Read(master, answers, answers.Length) > 0)
        {
        }
    }

    /// <summary>Pulls the plug.</summary>
    public void Dispose() => master.Dispose();
}
