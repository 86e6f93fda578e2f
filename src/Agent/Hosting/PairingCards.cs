using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Hosting;

/// <summary>Hands a scanned pair card on to where a device waits for it: the one thing that goes from the core back to a link.</summary>
/// <param name="card">Its code.</param>
internal sealed class PairingCards(IRound round, string card, Action confirm) : IRound
{
    public DateTimeOffset? NextDeadline => round.NextDeadline;

    public void Accept(TraceRecord record, List<StationEvent> events)
    {
        var before = events.Count;
        round.Accept(record, events);
        for (var i = before; i < events.Count; i++)
        {
            if (events[i] is ScanEvent { Code: var code } && code == card)
                confirm();
        }
    }

    public void Reload(Ledger fresh) => round.Reload(fresh);

    public void Expire(DateTimeOffset now, List<StationEvent> events) => round.Expire(now, events);
}
