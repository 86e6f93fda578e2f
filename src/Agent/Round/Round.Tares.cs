using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

// After a lift: what lies on the pan, beside the tare of the weighing. The told weight is never changed by it.
internal sealed partial class Round
{
    private LastLift? lastLift;

    private void CompareTares(DateTimeOffset at, List<StationEvent> events)
    {
        if (lastLift is not { } gone)
            return;
        if (!gone.Look(pan))
            lastLift = null;
        else
            TellTares(gone, at, events);
    }

    // A code that comes after the lift, or never: the pan may have come to rest before the decision.
    private void DecidedAfterLift(Placing placing, WeighingEvent weighing, DateTimeOffset at, List<StationEvent> events)
    {
        if (lastLift is not { } gone || gone.Placing != placing)
            return;
        gone.Weighing = weighing;
        TellTares(gone, at, events);
    }

    private void TellTares(LastLift gone, DateTimeOffset at, List<StationEvent> events)
    {
        if (gone is not { Weighing: { } weighing, Comparison: { } tares })
            return;
        lastLift = null;
        if (weighing.Grams is { } grams && !tares.IsSlip((double)grams, pan.Division))
            pan.LearnDrift(tares);
        TareNote.Tell(weighing, tares, pan.Division, at, events);
    }
}
