using System.Diagnostics.Metrics;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Page.Measuring;

/// <summary>What the agent counts and times. Any OpenTelemetry collector can listen to the meter; the page's scrape address does.</summary>
internal sealed class Instrumentation : IDisposable
{
    public const string MeterName = "capture-agent";

    private readonly Meter meter = new(MeterName);

    private readonly Counter<long> records, weighings, rejects, reconnects, alerts;

    private readonly Histogram<double> settle, commit;

    private readonly TimeProvider time;

    private readonly Dictionary<string, DateTimeOffset> placed = new(StringComparer.Ordinal);

    private readonly HashSet<string> lost = new(StringComparer.Ordinal);

    public Instrumentation(TimeProvider time)
    {
        this.time = time;
        records = meter.CreateCounter<long>("capture.device.records", "{record}", "Pieces of data that came from a device.");
        weighings = meter.CreateCounter<long>("capture.weighings", "{weighing}", "Weighings on disk, by verdict.");
        rejects = meter.CreateCounter<long>("capture.rejects", "{weighing}", "Rejected weighings, by each of their reasons.");
        reconnects = meter.CreateCounter<long>("capture.device.reconnects", "{connection}", "Times a device came back.");
        alerts = meter.CreateCounter<long>("capture.alerts", "{alert}", "Alerts, by kind.");
        settle = meter.CreateHistogram<double>("capture.settle.duration", "s", "From the placing to the decision.", advice: Buckets(1, 2, 3, 4, 5, 7.5, 10, 15, 20, 30, 60));
        commit = meter.CreateHistogram<double>("capture.commit.duration", "s", "One decision to the disk.", advice: Buckets(0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5));
    }

    public IRound Count(IRound round) => new CountingRound(records, round);

    public IDecisionStore Time(IDecisionStore store) => new TimedStore(commit, time, store);

    /// <summary>Counts what is told.</summary>
    public IEventOutput Count(IEventOutput output) => new CountingEvents(this, output);

    public void Dispose() => meter.Dispose();

    private static InstrumentAdvice<double> Buckets(params double[] bounds) => new() { HistogramBucketBoundaries = bounds };

    private void Take(StationEvent station)
    {
        switch (station)
        {
            case PlacedEvent on:
                placed[on.Device] = on.At;
                break;
            case WeighingEvent weighing:
                weighings.Add(1, new KeyValuePair<string, object?>("verdict", weighing.Verdict));
                foreach (var reason in weighing.Reasons)
                    rejects.Add(1, new KeyValuePair<string, object?>("reason", reason));
                if (placed.Remove(weighing.Device, out var since))
                    settle.Record((weighing.At - since).TotalSeconds);
                break;
            case DeviceEvent { State: "down" } gone:
                lost.Add(gone.Device);
                break;
            case DeviceEvent { State: "up" } back when lost.Remove(back.Device):
                reconnects.Add(1, new KeyValuePair<string, object?>("device", back.Device));
                break;
            case AlertEvent alert:
                alerts.Add(1, new KeyValuePair<string, object?>("alert", alert.Alert));
                break;
        }
    }

    private sealed class CountingEvents(Instrumentation counts, IEventOutput output) : IEventOutput
    {
        public void Write(StationEvent station)
        {
            output.Write(station);
            counts.Take(station);
        }
    }

    private sealed class CountingRound(Counter<long> records, IRound round) : IRound
    {
        public DateTimeOffset? NextDeadline => round.NextDeadline;

        public void Accept(TraceRecord record, List<StationEvent> events)
        {
            if (record.Link is null)
                records.Add(1, new KeyValuePair<string, object?>("device", record.Device));
            round.Accept(record, events);
        }

        public void Reload(Ledger fresh) => round.Reload(fresh);

        public void Expire(DateTimeOffset now, List<StationEvent> events) => round.Expire(now, events);
    }

    private sealed class TimedStore(Histogram<double> commit, TimeProvider time, IDecisionStore store) : IDecisionStore
    {
        public void Add(WeighingRow weighing, Evidence? evidence) => Timed(() => store.Add(weighing, evidence));

        public void Add(FeedRow feed) => Timed(() => store.Add(feed));

        public void Add(UndoRow undo) => Timed(() => store.Add(undo));

        public void Add(ScaleCheckRow check) => Timed(() => store.Add(check));

        public void Add(TareAfterRow tare) => Timed(() => store.Add(tare));

        public void Add(IntakeRow intake) => Timed(() => store.Add(intake));

        public void Add(CropMarkRow mark) => Timed(() => store.Add(mark));

        public void Add(ChoreRow chore) => Timed(() => store.Add(chore));

        public void Add(ObservationRow observation) => Timed(() => store.Add(observation));

        public void Add(BatchRow batch) => Timed(() => store.Add(batch));

        public void Add(ProbeCheckRow check) => Timed(() => store.Add(check));

        public void Add(ProbeLagRow lag) => Timed(() => store.Add(lag));

        private void Timed(Action add)
        {
            var start = time.GetTimestamp();
            add();
            commit.Record(time.GetElapsedTime(start).TotalSeconds);
        }
    }
}
