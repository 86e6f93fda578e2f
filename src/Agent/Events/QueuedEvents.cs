using System.Buffers;
using System.Threading.Channels;

namespace CaptureAgent.Agent.Events;

/// <summary>Writes events from a thread of its own: a listener that stops reading must not stop the round.</summary>
/// <remarks>Lines are made and ordered by the caller's thread. What does not fit into the queue is lost to the listener and counted; it is in the store all the same.</remarks>
internal sealed class QueuedEvents : IEventOutput
{
    private const int Capacity = 10_000;

    private readonly Channel<byte[]> lines = Channel.CreateBounded<byte[]>(new BoundedChannelOptions(Capacity) { SingleReader = true });

    private readonly ArrayBufferWriter<byte> line = new(1024);

    private readonly StreamEvents output;

    private readonly Task writing;

    private long lost;

    public QueuedEvents(Stream stream)
    {
        output = new StreamEvents(stream);
        writing = Task.Factory.StartNew(Pump, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default).Unwrap();
    }

    /// <summary>Lines that the listener was too slow for.</summary>
    public long Lost => Interlocked.Read(ref lost);

    /// <summary>What ended the output; null while it works.</summary>
    public IOException? Fault => output.Fault;

    public void Write(StationEvent station)
    {
        EventJson.Write(line, station);
        Enqueue(line.WrittenSpan);
        line.ResetWrittenCount();
    }

    /// <summary>The line that opens the output.</summary>
    public void WriteReady() => Enqueue(EventJson.Ready);

    /// <summary>Writes what is waiting, but waits for a stuck listener no longer than this.</summary>
    public async Task CloseAsync(TimeSpan patience, TimeProvider time)
    {
        lines.Writer.TryComplete();
        try
        {
            await writing.WaitAsync(patience, time);
        }
        catch (TimeoutException)
        {
            Interlocked.Add(ref lost, lines.Reader.Count);
        }
    }

    private void Enqueue(ReadOnlySpan<byte> bytes)
    {
        if (!lines.Writer.TryWrite(bytes.ToArray()))
            Interlocked.Increment(ref lost);
    }

    private async Task Pump()
    {
        await foreach (var bytes in lines.Reader.ReadAllAsync())
            output.WriteLine(bytes);
    }
}
