namespace CaptureAgent.Simulators.Instruments.Terminals;

/// <summary>A named place in a folder into which an instrument is plugged: a link to its device file, as under /dev/serial/by-id.</summary>
/// <remarks>Safe for several threads.</remarks>
public sealed class SerialSocket(string folder, string name) : IDisposable
{
    private readonly Lock gate = new();
    private PseudoTerminal? terminal;

    /// <summary>The path that a station's configuration names; it stays the same from plug to plug.</summary>
    public string Path { get; } = System.IO.Path.Combine(folder, name);

    public bool IsPlugged
    {
        get
        {
            lock (gate)
                return terminal is not null;
        }
    }

    public bool HasReader
    {
        get
        {
            lock (gate)
                return terminal is { HasReader: true };
        }
    }

    /// <summary>The device appears; nothing happens where it is there already.</summary>
    public void Plug()
    {
        lock (gate)
        {
            if (terminal is not null)
                return;
            Directory.CreateDirectory(folder);
            File.Delete(Path);
            terminal = PseudoTerminal.Open();
            File.CreateSymbolicLink(Path, terminal.DevicePath);
        }
    }

    /// <summary>The cable is pulled: the link goes, the reader sees a hang-up.</summary>
    public void Unplug()
    {
        lock (gate)
        {
            // Pulled before: the folder may be gone by now.
            if (terminal is null)
                return;
            File.Delete(Path);
            terminal.Dispose();
            terminal = null;
        }
    }

    /// <summary>Gives how many bytes were taken; 0 where nothing is plugged or nobody reads.</summary>
    public int Write(ReadOnlySpan<byte> bytes)
    {
        lock (gate)
            return terminal?.Write(bytes) ?? 0;
    }

    /// <summary>Takes what the program has sent, without waiting.</summary>
    public int Read(Span<byte> buffer)
    {
        lock (gate)
            return terminal?.Read(buffer) ?? 0;
    }

    public void Dispose() => Unplug();
}
