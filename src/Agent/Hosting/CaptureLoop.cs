using System.Threading.Channels;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Hosting;

/// <summary>The one loop of a run: takes what the devices sent, in order, through the core to the store and to the listener.</summary>
/// <remarks>Everything that is decided or stored happens on this loop; nothing in it needs a lock.</remarks>
/// <param name="queue">All devices write into it; the loop's own alarm too.</param>
/// <param name="look">Called about once a second, between records.</param>
internal sealed class CaptureLoop(
    Channel<TraceRecord> queue, IRound round, Recorder recorder, TraceRecording recording, IEventOutput output, SteadyClock clock, Action<Recorder> look)
{
    /// <summary>A record may be this long on its way; a deadline waits so long for it.</summary>
    public static readonly TimeSpan Grace = TimeSpan.FromMilliseconds(50);

    private const int MostAtOnce = 256;

    private static readonly TimeSpan LookEvery = TimeSpan.FromSeconds(1);

    private static readonly TimeSpan Shortest = TimeSpan.FromMilliseconds(1);

    /// <summary>Wakes the loop; no device sent it.</summary>
    private static readonly TraceRecord Alarm = new(default, "");

    private readonly Timeline timeline = new();

    private readonly List<StationEvent> events = [];

    private DateTimeOffset nextLook;

    /// <summary>Runs until it is stopped; then what has arrived is still taken, and what waits for the store is stored or told.</summary>
    public async Task RunAsync(CancellationToken stop)
    {
        await using var alarm = clock.CreateTimer(_ => queue.Writer.TryWrite(Alarm), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        try
        {
            while (true)
            {
                Turn();
                alarm.Change(UntilNext(), Timeout.InfiniteTimeSpan);
                await queue.Reader.WaitToReadAsync(stop);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
        }
    }

    /// <summary>The last turn, after the devices have been stopped: takes all that has arrived.</summary>
    public void Close()
    {
        while (queue.Reader.TryPeek(out _))
            Drain();
        FlushRecording();
        recorder.Close(clock.GetUtcNow());
    }

    /// <summary>One turn: what has arrived, what is due, what must be looked at.</summary>
    internal void Turn()
    {
        Drain();
        FlushRecording();
        var now = clock.GetUtcNow();
        Expire(now);
        if (recorder.NextTry <= now)
            recorder.Retry(now);
        if (now < nextLook)
            return;

        nextLook = now + LookEvery;
        CheckClock();
        look(recorder);
    }

    private void Drain()
    {
        for (var taken = 0; taken < MostAtOnce && queue.Reader.TryRead(out var record); taken++)
        {
            if (ReferenceEquals(record, Alarm))
                continue;

            var placed = record with { At = timeline.Place(record.At) };
            recording.Write(placed);
            round.Accept(placed, events);
            Hand();
        }
    }

    // A deadline that has fired cannot be taken back: first everything that is at hand is taken.
    private void Expire(DateTimeOffset now)
    {
        var upTo = now - Grace;
        if (round.NextDeadline is not { } due || due > upTo || queue.Reader.TryPeek(out _))
            return;

        round.Expire(upTo, events);
        timeline.Fired(upTo);
        Hand();
    }

    private void Hand()
    {
        if (events.Count == 0)
            return;
        recorder.Take(events, clock.GetUtcNow());
        events.Clear();
    }

    private void CheckClock()
    {
        if (clock.Check() is not { } step)
            return;

        var seconds = step.By.Duration().TotalSeconds;
        Alert("clock-stepped", step.By > TimeSpan.Zero
            ? FormattableString.Invariant($"The computer's clock was set forward by {seconds:0.#} s; times follow it from now on.")
            : FormattableString.Invariant($"The computer's clock was set back by {seconds:0.#} s. Times go on as before, so that the order of the record holds; start the agent again when no round is under way to take the new time."));
    }

    private void FlushRecording()
    {
        if (recording.Flush() is { } reason)
            Alert("not-recorded", $"The trace cannot be written any more and ends here; weighing goes on. {reason}");
    }

    /// <summary>Tells what is no matter of the core; by the loop's own thread.</summary>
    internal void Alert(string alert, string text) => output.Write(new AlertEvent(timeline.Place(clock.GetUtcNow()), alert, Chick: null, Device: null, text));

    private TimeSpan UntilNext()
    {
        var next = nextLook;
        if (round.NextDeadline is { } due && due + Grace < next)
            next = due + Grace;
        if (recorder.NextTry is { } retry && retry < next)
            next = retry;
        var wait = next - clock.GetUtcNow();
        return wait > Shortest ? wait : Shortest;
    }
}
