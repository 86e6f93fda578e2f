using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Store;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace CaptureAgent.Agent.Tests.Recording;

public sealed class RecorderTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 5, 41, 10, TimeSpan.Zero);

    private readonly List<string> journal = [];
    private readonly FailingStore store;
    private readonly List<StationEvent> told = [];
    private readonly Recorder recorder;

    public RecorderTests()
    {
        store = new FailingStore(journal);
        recorder = new Recorder(store, new DecisionRows("east-room", "Etc/UTC"), new Listener(told, journal), NullLogger.Instance);
    }

    [Fact]
    public void A_decision_is_told_after_it_is_stored_and_everything_keeps_its_order()
    {
        recorder.Take([new PlacedEvent(At, "scale", null), Weighing("A"), new LiftedEvent(At, "scale", "A"), new FeedEvent(At, "A", 1, "in-range")], At);

        Assert.Equal(["told placed", "stored weighing A", "told weighing", "told lifted", "stored feed A", "told feed"], journal);
        Assert.All(told.OfType<DecisionEvent>(), decision => Assert.Null(decision.StoredAt));
        Assert.Null(recorder.NextTry);
    }

    [Fact]
    public void While_the_store_cannot_write_each_decision_is_one_alert_and_no_weighing()
    {
        store.Fault = new StoreException("The disk is full.", "Make room.");

        recorder.Take([Weighing("A"), new PlacedEvent(At, "scale", null), Weighing("B")], At);
        recorder.Retry(At.AddSeconds(1));
        recorder.Retry(At.AddSeconds(2));

        Assert.Equal(["told alert", "told placed", "told alert"], journal);
        var alert = Assert.IsType<AlertEvent>(told[0]);
        Assert.Equal(("not-stored", "A", At), (alert.Alert, alert.Chick, alert.At));
        Assert.Contains("186.4 g", alert.Text, StringComparison.Ordinal);
        Assert.Contains("The disk is full. Make room.", alert.Text, StringComparison.Ordinal);
        Assert.Equal(2, recorder.Waiting);
    }

    [Fact]
    public void Once_the_store_writes_again_the_decisions_follow_in_their_order_with_the_moment_of_storing()
    {
        var first = Weighing("A");
        store.Fault = new StoreException("The disk is full.", "Make room.");
        recorder.Take([first, new FeedEvent(At, "A", 1, "in-range"), new UndoEvent(At, "A", "feed")], At);
        store.Fault = null;
        journal.Clear();

        recorder.Retry(At.AddSeconds(9));

        Assert.Equal(["stored weighing A", "told weighing", "stored feed A", "told feed", "stored undo", "told undo"], journal);
        var weighing = Assert.Single(told.OfType<WeighingEvent>());
        Assert.Equal((At, At.AddSeconds(9)), (weighing.At, weighing.StoredAt));
        Assert.Equal(first.Id, Assert.Single(store.Weighings).Row.Id);
        Assert.Equal((0, null), (recorder.Waiting, recorder.NextTry));
    }

    [Fact]
    public void A_new_decision_does_not_overtake_those_that_wait()
    {
        store.Fault = new StoreException("Locked.", "Wait.");
        recorder.Take([Weighing("A")], At);
        store.Fault = null;

        recorder.Take([Weighing("B")], At.AddSeconds(0.1));
        Assert.Empty(store.Weighings);

        recorder.Retry(At.AddSeconds(1));
        Assert.Equal(["A", "B"], store.Weighings.Select(weighing => weighing.Row.Chick));
    }

    [Fact]
    public void The_pauses_between_tries_grow_to_a_limit_and_start_short_again()
    {
        store.Fault = new StoreException("Locked.", "Wait.");
        recorder.Take([Weighing("A")], At);
        var pauses = new List<double> { (recorder.NextTry!.Value - At).TotalSeconds };
        for (var i = 0; i < 6; i++)
        {
            recorder.Retry(At);
            pauses.Add((recorder.NextTry!.Value - At).TotalSeconds);
        }

        Assert.Equal([0.25, 0.5, 1, 2, 4, 5, 5], pauses);

        store.Fault = null;
        recorder.Retry(At);
        store.Fault = new StoreException("Locked.", "Wait.");
        recorder.Take([Weighing("B")], At);
        Assert.Equal(At.AddSeconds(0.25), recorder.NextTry);
    }

    [Fact]
    public void What_does_not_fit_is_counted_and_told()
    {
        store.Fault = new StoreException("The disk is full.", "Make room.");

        recorder.Take([.. Enumerable.Range(0, Recorder.Capacity + 2).Select(i => Weighing($"C{i}"))], At);

        Assert.Equal((Recorder.Capacity, 2), (recorder.Waiting, recorder.Lost));
        Assert.Equal(["lost", "lost"], told.OfType<AlertEvent>().Select(alert => alert.Alert).Where(alert => alert != "not-stored"));
        Assert.Equal($"C{Recorder.Capacity + 1}", ((AlertEvent)told[^1]).Chick);
    }

    [Fact]
    public void A_row_that_can_never_be_stored_is_told_and_holds_up_nothing()
    {
        store.Fault = new ArgumentException("The row taken back is not in the store.");
        recorder.Take([Weighing("A")], At);
        store.Fault = null;
        recorder.Take([Weighing("B")], At);

        Assert.Equal(["told alert", "stored weighing B", "told weighing"], journal);
        Assert.Equal((0, 1), (recorder.Waiting, recorder.Lost));
    }

    [Fact]
    public void At_the_end_what_is_not_on_disk_is_stored_or_told()
    {
        store.Fault = new StoreException("Locked.", "Wait.");
        recorder.Take([Weighing("A")], At);
        recorder.Close(At.AddSeconds(1));

        Assert.Equal(("lost", "A"), (((AlertEvent)told[^1]).Alert, ((AlertEvent)told[^1]).Chick));
        Assert.Equal((0, 1), (recorder.Waiting, recorder.Lost));

        recorder.Take([Weighing("B")], At);
        store.Fault = null;
        recorder.Close(At.AddSeconds(2));
        Assert.Equal("B", Assert.Single(store.Weighings).Row.Chick);
    }

    [Fact]
    public void A_weighing_becomes_a_row_with_exact_milligrams_and_its_evidence()
    {
        var evidence = new Evidence("samples-1", new byte[] { 1, 2, 3 });
        var replaced = Guid.NewGuid();
        var weighing = new WeighingEvent(At, "AM-0147", 204.9m, 0.11m, "rejected", ["after-feed"], "Wait.", 8.2m, 24, "scale")
        {
            Id = Guid.NewGuid(),
            Day = new DateOnly(2026, 3, 1),
            Evidence = evidence,
            Replaces = replaced,
        };

        recorder.Take([weighing], At);

        var (row, kept) = Assert.Single(store.Weighings);
        Assert.Same(evidence, kept);
        Assert.Equal(
            new WeighingRow(weighing.Id, "AM-0147", At, "Etc/UTC", new DateOnly(2026, 3, 1), 204_900, 110, 8_200, Verdict.Rejected, row.Reasons, "Wait.", 24, Origin.Captured, "east-room", "scale", replaced),
            row);
        Assert.Equal(["after-feed"], row.Reasons);
    }

    [Fact]
    public void A_check_of_the_scale_is_stored_before_it_is_told()
    {
        var check = new CheckEvent(At, "scale", 200.131m, 200m, 0.131m, 0.1m, false, "Off.") { Id = Guid.NewGuid(), UncertaintyGrams = 0.07m };

        recorder.Take([check], At);

        Assert.Equal(["stored check scale", "told check"], journal);
        Assert.Equal(new ScaleCheckRow(check.Id, At, "Etc/UTC", "east-room", "scale", 200_131, 70, 200_000, 100), Assert.Single(store.Checks));
    }

    [Fact]
    public void The_tare_after_a_weighing_is_stored_after_it_and_is_nothing_to_write_down()
    {
        var weighing = Weighing("A");
        var tare = new TareAfterEvent(At, "scale", "A", 8.2m, 9.4m, 1.2m, 0.041m, true, null) { Id = Guid.NewGuid(), WeighingId = weighing.Id };
        store.Fault = new StoreException("The disk is full.", "Make room.");
        recorder.Take([weighing, tare], At);
        Assert.Equal(["told alert"], journal);
        store.Fault = null;

        recorder.Retry(At.AddSeconds(9));

        Assert.Equal(["told alert", "stored weighing A", "told weighing", "stored tare after scale", "told tare-after"], journal);
        Assert.Equal(new TareAfterRow(tare.Id, weighing.Id, At, "Etc/UTC", "east-room", "scale", 8_200, 9_400, 41, true, null), Assert.Single(store.Tares));
    }

    private static WeighingEvent Weighing(string chick) =>
        new(At, chick, 186.4m, 0.11m, "accepted", [], null, 8.2m, 24, "scale") { Id = Guid.NewGuid(), Day = new DateOnly(2026, 3, 2) };

    private sealed class Listener(List<StationEvent> told, List<string> journal) : IEventOutput
    {
        public void Write(StationEvent station)
        {
            told.Add(station);
            journal.Add($"told {station.Name}");
        }
    }

    internal sealed class FailingStore(List<string> journal) : IDecisionStore
    {
        public Exception? Fault { get; set; }

        public List<(WeighingRow Row, Evidence? Evidence)> Weighings { get; } = [];

        public List<ScaleCheckRow> Checks { get; } = [];

        public List<TareAfterRow> Tares { get; } = [];

        public void Add(WeighingRow weighing, Evidence? evidence)
        {
            Write($"stored weighing {weighing.Chick}");
            Weighings.Add((weighing, evidence));
        }

        public void Add(FeedRow feed) => Write($"stored feed {feed.Chick}");

        public void Add(UndoRow undo) => Write("stored undo");

        public void Add(IntakeRow intake) => Write("stored intake");

        public void Add(CropMarkRow mark) => Write($"stored crop {mark.Chick}");

        public void Add(ChoreRow chore) => Write($"stored chore {chore.Chore}");
        public void Add(ObservationRow observation) => Write($"stored observation {observation.Chick}");

        public void Add(ScaleCheckRow check)
        {
            Write($"stored check {check.Device}");
            Checks.Add(check);
        }

        public void Add(TareAfterRow tare)
        {
            Write($"stored tare after {tare.Device}");
            Tares.Add(tare);
        }
        public void Add(BatchRow batch) => Write($"stored batch {batch.Number} {batch.State}");

        public void Add(ProbeCheckRow check) => Write($"stored check {check.Device}");

        public void Add(ProbeLagRow lag) => Write($"stored lag {lag.Device}");

        private void Write(string entry)
        {
            if (Fault is not null)
                throw Fault;
            journal.Add(entry);
        }
    }
}
