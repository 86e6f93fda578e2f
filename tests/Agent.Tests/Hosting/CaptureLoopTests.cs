using System.Threading.Channels;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class CaptureLoopTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 5, 0, 0, TimeSpan.Zero);

    private readonly FakeTimeProvider wall = new(Start);
    private readonly Channel<TraceRecord> queue = Channel.CreateBounded<TraceRecord>(100);
    private readonly JournalRound round = new();
    private readonly List<StationEvent> told = [];
    private readonly MemoryStream trace = new();
    private readonly SwitchedStore store = new();
    private readonly CaptureLoop loop;
    private int looks;

    public void Dispose() => trace.Dispose();

    public CaptureLoopTests() => loop = LoopAt(wall);

    [Fact]
    public void Records_go_to_the_trace_and_to_the_core_with_the_same_moments()
    {
        queue.Writer.TryWrite(new TraceRecord(Start.AddTicks(11), "scale", "1"u8.ToArray()));
        queue.Writer.TryWrite(new TraceRecord(Start, "scanner", "2"u8.ToArray()));

        loop.Turn();

        Assert.Equal([Start.AddMicroseconds(1), Start.AddMicroseconds(1)], round.Accepted.Select(record => record.At));
        var read = new TraceReader(new MemoryStream(trace.ToArray()), "t", ["scale", "scanner"]).Read();
        Assert.Equal(round.Accepted.Select(record => (record.At, record.Device)), read.Select(record => (record.At, record.Device)));
    }

    [Fact]
    public void A_deadline_fires_by_itself_only_after_the_grace()
    {
        round.NextDeadline = Start.AddSeconds(1);
        wall.Advance(TimeSpan.FromSeconds(1.049));
        loop.Turn();
        Assert.Empty(round.Expired);

        wall.Advance(TimeSpan.FromSeconds(0.001));
        loop.Turn();
        Assert.Equal([Start.AddSeconds(1)], round.Expired);
    }

    [Fact]
    public void A_record_that_is_late_for_a_fired_deadline_stands_after_it()
    {
        round.NextDeadline = Start.AddSeconds(1);
        wall.Advance(TimeSpan.FromSeconds(1.05));
        loop.Turn();
        queue.Writer.TryWrite(new TraceRecord(Start.AddSeconds(0.9), "scale", "1"u8.ToArray()));

        loop.Turn();

        Assert.Equal(Start.AddSeconds(1).AddMicroseconds(1), Assert.Single(round.Accepted).At);
    }

    [Fact]
    public void What_is_at_hand_goes_before_a_deadline()
    {
        round.NextDeadline = Start.AddSeconds(1);
        wall.Advance(TimeSpan.FromSeconds(5));
        for (var i = 0; i < 100; i++)
            queue.Writer.TryWrite(new TraceRecord(Start.AddSeconds(0.5), "scale", "1"u8.ToArray()));

        loop.Turn();

        Assert.Equal(100, round.AcceptedBeforeFirstExpiry);
    }

    [Fact]
    public void Decisions_that_wait_are_tried_again_when_it_is_time()
    {
        store.Fails = true;
        round.Answer = new WeighingEvent(Start, "A", 1m, 0.1m, "accepted", [], null, 0m, 1, "scale") { Id = Guid.NewGuid() };
        queue.Writer.TryWrite(new TraceRecord(Start, "scale", "1"u8.ToArray()));
        loop.Turn();
        Assert.Equal(["alert"], told.Select(station => station.Name));

        store.Fails = false;
        loop.Turn();
        Assert.Single(told);

        wall.Advance(TimeSpan.FromSeconds(0.25));
        loop.Turn();
        Assert.Equal(["alert", "weighing"], told.Select(station => station.Name));
        Assert.Equal(Start.AddSeconds(0.25), ((WeighingEvent)told[1]).StoredAt);
    }

    [Fact]
    public void A_jump_of_the_clock_is_an_alert()
    {
        var jumping = new JumpingClock(Start);
        var turning = LoopAt(jumping);
        turning.Turn();
        jumping.Jump(TimeSpan.FromHours(1));
        turning.Turn();
        Assert.Empty(told);

        jumping.Pass(TimeSpan.FromSeconds(1));
        turning.Turn();

        var alert = Assert.IsType<AlertEvent>(Assert.Single(told));
        Assert.Equal("clock-stepped", alert.Alert);
        Assert.Contains("forward by 3600 s", alert.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_outside_is_looked_at_once_a_second()
    {
        for (var i = 0; i < 30; i++)
        {
            loop.Turn();
            wall.Advance(TimeSpan.FromSeconds(0.1));
        }

        Assert.Equal(3, looks);
    }

    [Fact]
    public async Task The_loop_wakes_by_itself_for_a_deadline_and_ends_when_it_is_stopped()
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        var fired = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        round.NextDeadline = Start.AddSeconds(0.5);
        round.OnExpire = () => fired.TrySetResult();
        var running = loop.RunAsync(stop.Token);

        wall.Advance(TimeSpan.FromSeconds(0.6));
        await fired.Task.WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);
        await stop.CancelAsync();
        await running;
    }

    [Fact]
    public void At_the_end_all_that_has_arrived_is_taken_and_what_is_not_stored_is_told()
    {
        store.Fails = true;
        round.Answer = new WeighingEvent(Start, "A", 1m, 0.1m, "accepted", [], null, 0m, 1, "scale") { Id = Guid.NewGuid() };
        queue.Writer.TryWrite(new TraceRecord(Start, "scale", "1"u8.ToArray()));

        loop.Close();

        Assert.Single(round.Accepted);
        Assert.Equal(["not-stored", "lost"], told.Cast<AlertEvent>().Select(alert => alert.Alert));
        Assert.NotEqual(0, trace.Length);
    }

    private CaptureLoop LoopAt(TimeProvider time)
    {
        var output = new Listener(told);
        var recorder = new Recorder(store, new DecisionRows("s", "Etc/UTC"), output, NullLogger.Instance);
        return new CaptureLoop(
            queue, round, recorder, new TraceRecording(new TraceWriter(trace), NullLogger.Instance), output, new SteadyClock(time), _ => looks++);
    }

    private sealed class JournalRound : IRound
    {
        public List<TraceRecord> Accepted { get; } = [];

        public List<DateTimeOffset> Expired { get; } = [];

        public int AcceptedBeforeFirstExpiry { get; private set; }

        public StationEvent? Answer { get; set; }

        public Action? OnExpire { get; set; }

        public DateTimeOffset? NextDeadline { get; set; }

        public void Accept(TraceRecord record, List<StationEvent> events)
        {
            Accepted.Add(record);
            if (Answer is not null)
                events.Add(Answer);
        }

        public void Expire(DateTimeOffset now, List<StationEvent> events)
        {
            if (Expired.Count == 0)
                AcceptedBeforeFirstExpiry = Accepted.Count;
            Expired.Add(now);
            NextDeadline = null;
            OnExpire?.Invoke();
        }

        public void Reload(Ledger fresh)
        {
        }
    }

    private sealed class Listener(List<StationEvent> told) : IEventOutput
    {
        public void Write(StationEvent station) => told.Add(station);
    }

    private sealed class SwitchedStore : IDecisionStore
    {
        public bool Fails { get; set; }

        public void Add(WeighingRow weighing, Evidence? evidence) => Write();

        public void Add(FeedRow feed) => Write();

        public void Add(UndoRow undo) => Write();

        public void Add(IntakeRow intake) => Write();

        public void Add(CropMarkRow mark) => Write();

        public void Add(ChoreRow chore) => Write();

        public void Add(ScaleCheckRow check) => Write();

        public void Add(TareAfterRow tare) => Write();
        public void Add(ObservationRow observation) => Write();
        public void Add(BatchRow batch) => Write();

        public void Add(ProbeCheckRow check) => Write();

        public void Add(ProbeLagRow lag) => Write();

        private void Write()
        {
            if (Fails)
                throw new StoreException("Full.", "Make room.");
        }
    }
}
