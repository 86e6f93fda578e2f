using System.Buffers;
using System.Text.Json;
using CaptureAgent.Agent.Events;

namespace CaptureAgent.Agent.Page.Live;

/// <summary>One event as it goes out.</summary>
/// <param name="Id">Counts up from 1 in this run.</param>
/// <param name="Json">As on standard output, without the line's ending.</param>
internal readonly record struct NumberedEvent(long Id, string Name, ReadOnlyMemory<byte> Json);

/// <summary>Between the one loop that captures and the many that look: the last events, and what they add up to.</summary>
/// <remarks>
/// The writer never waits: it adds to a ring and wakes those who wait. Each reader has its own place in the ring and comes at its own pace;
/// who falls behind by more than the ring holds is told so. Nothing is queued for anybody.
/// </remarks>
internal sealed class EventFeed : IEventOutput
{
    /// <summary>An hour and more of a probe that speaks each second.</summary>
    public const int Capacity = 4096;

    private readonly Lock gate = new();

    private readonly NumberedEvent[] ring = new NumberedEvent[Capacity];

    private readonly ArrayBufferWriter<byte> line = new(1024);

    private readonly Board board;

    private TaskCompletionSource changed = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private long last;

    private (long Version, byte[] Json) drawn = (-1, []);

    /// <param name="run">Names this run of the agent: ids of another run mean nothing in it.</param>
    public EventFeed(Board board, string run)
    {
        this.board = board;
        Run = run;
    }

    public string Run { get; }

    /// <summary>Id of the newest event; 0 before the first.</summary>
    public long Last
    {
        get
        {
            lock (gate)
                return last;
        }
    }

    public Situation Situation
    {
        get
        {
            lock (gate)
                return board.Situation;
        }
    }

    public void Write(StationEvent station)
    {
        TaskCompletionSource wake;
        lock (gate)
        {
            EventJson.Write(line, station);
            last++;
            ring[last % Capacity] = new(last, station.Name, line.WrittenSpan[..^1].ToArray());
            line.ResetWrittenCount();
            board.Take(station);
            wake = Renew();
        }

        wake.TrySetResult();
    }

    /// <summary>The store has changed without an event.</summary>
    public void RecordChanged() => Change(changing => changing.RecordChanged());

    /// <summary>What a review of the morning found.</summary>
    public void Review(DateOnly day, IReadOnlyList<FindingSituation> found) => Change(changing => changing.Review(day, found));

    private void Change(Action<Board> change)
    {
        TaskCompletionSource wake;
        lock (gate)
        {
            change(board);
            wake = Renew();
        }

        wake.TrySetResult();
    }

    /// <summary>The situation as JSON, made once for all who ask.</summary>
    public (long Version, ReadOnlyMemory<byte> Json) Draw()
    {
        lock (gate)
        {
            if (drawn.Version != board.Version)
                drawn = (board.Version, JsonSerializer.SerializeToUtf8Bytes(board.Situation, Api.ApiJson.Default.Situation));
            return drawn;
        }
    }

    /// <summary>Ends when something has changed after what the caller has seen; at once if it has already.</summary>
    public Task ChangedAsync(long seenVersion, long seenEvent)
    {
        lock (gate)
            return board.Version > seenVersion || last > seenEvent ? Task.CompletedTask : changed.Task;
    }

    /// <summary>Events after an id, oldest first; missed is true where some of them are not kept any more.</summary>
    public (IReadOnlyList<NumberedEvent> Events, bool Missed) After(long id, int most = 256)
    {
        lock (gate)
        {
            var oldest = Math.Max(1, last - Capacity + 1);
            var from = Math.Max(id + 1, oldest);
            var events = new List<NumberedEvent>();
            for (var next = from; next <= last && events.Count < most; next++)
                events.Add(ring[next % Capacity]);
            return (events, id + 1 < oldest);
        }
    }

    private TaskCompletionSource Renew()
    {
        var wake = changed;
        changed = new(TaskCreationOptions.RunContinuationsAsynchronously);
        return wake;
    }
}
