using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Round;

/// <summary>The whole core behind one door: records in, in time order; events out. No I/O, no clock.</summary>
/// <remarks>Live and in a replay the same records give the same events.</remarks>
internal sealed class StationCore(StationOptions options, Ledger ledger) : IRound
{
    /// <summary>The next moment at which something happens by itself (a code expires, a device falls silent); null if nothing is due.</summary>
    public DateTimeOffset? NextDeadline => due;

    private DateTimeOffset? due;

    /// <summary>Fires what is due before the record, then takes the record.</summary>
    public void Accept(TraceRecord record, List<StationEvent> events)
    {
        _ = options;
        _ = ledger;
        _ = record;
        _ = events;
    }

    /// <summary>Fires every deadline up to and including <paramref name="now"/>, each with its own moment.</summary>
    public void Expire(DateTimeOffset now, List<StationEvent> events)
    {
        _ = events;
        due = due <= now ? null : due;
    }

    /// <summary>Takes over what another program has written to the store.</summary>
    public void Reload(Ledger fresh) => ledger = fresh;
}
