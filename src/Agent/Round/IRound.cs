using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Round;

/// <summary>The core as its driver sees it: <see cref="StationCore"/>, or a test's stand-in.</summary>
internal interface IRound
{
    /// <summary>The next moment at which something happens by itself; null if nothing is due.</summary>
    DateTimeOffset? NextDeadline { get; }

    /// <summary>Fires what is due before the record, then takes the record.</summary>
    void Accept(TraceRecord record, List<StationEvent> events);

    /// <summary>Fires every deadline up to and including <paramref name="now"/>, each with its own moment.</summary>
    void Expire(DateTimeOffset now, List<StationEvent> events);

    /// <summary>Takes over what another program has written to the store.</summary>
    void Reload(Ledger fresh);
}
