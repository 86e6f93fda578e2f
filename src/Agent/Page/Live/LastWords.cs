using System.Collections.Concurrent;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Page.Live;

/// <summary>Keeps what each device said last, for the page to show. Takes a reference, copies nothing.</summary>
internal sealed class LastWords
{
    private readonly ConcurrentDictionary<string, TraceRecord> words = new(StringComparer.Ordinal);

    public TraceRecord? Of(string device) => words.GetValueOrDefault(device);

    public IRound Overhear(IRound round) => new Overhearing(this, round);

    private sealed class Overhearing(LastWords kept, IRound round) : IRound
    {
        public DateTimeOffset? NextDeadline => round.NextDeadline;

        public void Accept(TraceRecord record, List<StationEvent> events)
        {
            if (record.Link is null)
                kept.words[record.Device] = record;
            round.Accept(record, events);
        }

        public void Reload(Ledger fresh) => round.Reload(fresh);

        public void Expire(DateTimeOffset now, List<StationEvent> events) => round.Expire(now, events);
    }
}
