using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Feeding.ProbeChecks;

namespace CaptureAgent.Agent.Round;

/// <summary>The cards that concern the probes: a batch begins, a probe is checked.</summary>
internal sealed class ProbeCards(BatchBook batches, IReadOnlyList<BatchWatch> watches, GuidedCheck guided)
{
    /// <summary>The card after the dip means the batch that was dipped into.</summary>
    private static readonly TimeSpan CardAfterDip = TimeSpan.FromSeconds(60);

    public DateTimeOffset? Due => guided.Expires;

    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        if (guided.Expires is not { } expires || expires > at)
            return;
        guided.End();
        events.Add(new AlertEvent(at, "probe-check-dropped", null, null, "The check of a probe was begun, and no probe stood still near the known temperature within five minutes: scan the card again, and leave the probe in until the answer."));
    }

    /// <summary>A new batch of formula begins; nothing has measured it.</summary>
    public Batch BeginBatch(DateTimeOffset at, List<StationEvent> events)
    {
        var dipped = watches.Where(watch => at - watch.InSince <= CardAfterDip).MaxBy(watch => watch.InSince);
        var watch = dipped ?? (watches.Count == 1 ? watches[0] : null);
        var batch = batches.Begin(at, at, watch?.Device);
        watch?.Bind(batch);
        batches.TellBegun(batch, at, events);
        return batch;
    }

    /// <summary>Begins a check if the card asks for one; the guidance to show.</summary>
    public string? Guide(Card card, DateTimeOffset at)
    {
        var kind = card switch
        {
            Card.Ice => ProbeCheckKind.Ice,
            Card.Boil => ProbeCheckKind.Boil,
            Card.Reference => ProbeCheckKind.Reference,
            _ => null,
        };
        if (kind is null)
            return null;
        if (watches.Count == 0)
            return "This station has no probe.";
        return guided.Begin(kind, at) is { } expected
            ? ProbeCheckKind.Guide(kind, expected)
            : "There is no reference: write what your reference thermometer shows into station.json, as in \"referenceCelsius\": 38.5 under feeding.batch.";
    }
}
