namespace CaptureAgent.Acceptance.Tests.Bench;

/// <summary>A place into which an instrument is plugged: a link whose path stays the same from plug to plug, as under /dev/serial/by-id.</summary>
internal sealed class Socket(string path) : IDisposable
{
    private readonly Lock gate = new();
    private PseudoTerminal? terminal;

    public string Path => path;

    public void Plug()
    {
        lock (gate)
        {
            terminal = new PseudoTerminal();
            File.CreateSymbolicLink(path + ".new", terminal.Path);
            File.Move(path + ".new", path, overwrite: true);
        }
    }

    /// <summary>The device's end is closed, and the link goes with it.</summary>
    public void Unplug()
    {
        lock (gate)
        {
            File.Delete(path);
            terminal?.Dispose();
            terminal = null;
        }
    }

    /// <summary>Lost where nothing is plugged in.</summary>
    public void Send(ReadOnlySpan<byte> bytes)
    {
        lock (gate)
            terminal?.Send(bytes);
    }

    public void Dispose() => Unplug();
}
