using System.Buffers;

namespace CaptureAgent.Agent.Events;

/// <summary>Writes each event at once, as one line in one piece, and flushes it.</summary>
internal sealed class StreamEvents(Stream stream) : IEventOutput
{
    private readonly ArrayBufferWriter<byte> line = new(1024);

    /// <summary>What ended the output; null while it works.</summary>
    public IOException? Fault { get; private set; }

    public void Write(StationEvent station)
    {
        EventJson.Write(line, station);
        WriteLine(line.WrittenSpan);
        line.ResetWrittenCount();
    }

    /// <summary>Writes a whole line, with its ending.</summary>
    public void WriteLine(ReadOnlySpan<byte> bytes)
    {
        if (Fault is not null)
            return;

        try
        {
            stream.Write(bytes);
            stream.Flush();
        }
        catch (IOException broken)
        {
            Fault = broken;
        }
    }
}
