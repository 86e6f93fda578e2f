using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Feeding.Probes;

namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>The state of a batch from what its probe shows. Doubt is settled to the safe side: hot is said early, in range late.</summary>
internal sealed class BatchVerdict(BatchOptions options)
{
    /// <summary>Keeps a state from flickering at a limit, °C.</summary>
    private const double Edge = 0.05;

    private readonly double low = (double)options.LowCelsius, high = (double)options.HighCelsius, stop = (double)options.StopCelsius;

    /// <param name="settledBefore">Newest settled temperature of this batch before this reading.</param>
    public string Of(Batch batch, in ProbeView view, ProbeTracker tracker, double? settledBefore, DateTimeOffset at)
    {
        if (IsHot(batch, view, tracker))
            return BatchStates.Stop;
        if (at >= batch.DiscardAt)
            return BatchStates.Discard;
        return view.Settled ? Settled(batch, view.Celsius) : Unsettled(batch, view, tracker, settledBefore, at);
    }

    private bool IsHot(Batch batch, in ProbeView view, ProbeTracker tracker)
    {
        var said = batch.State == BatchStates.Stop;
        if (view.Settled)
            return view.Celsius >= (said ? stop - Edge : stop);
        if (view.Place == ProbePlace.Leaving)
            return said;
        var chance = tracker.ChanceAtLeast(stop);
        return chance >= (said ? StopTakenBack : ChanceForStop(view.Deviation));
    }

    private const double StopTakenBack = 0.05;

    // A forecast that may be far off must be nearly sure, a fair one likely; a sharp one need only leave a doubt.
    private static double ChanceForStop(double deviation) => deviation switch
    {
        <= Sharp => PerhapsHot,
        <= Fair => PerhapsHot + ((deviation - Sharp) / (Fair - Sharp) * (LikelyHot - PerhapsHot)),
        <= Vague => LikelyHot + ((deviation - Fair) / (Vague - Fair) * (SurelyHot - LikelyHot)),
        _ => SurelyHot,
    };

    private const double Sharp = 0.25, Fair = 0.5, Vague = 3, PerhapsHot = 0.3, LikelyHot = 0.7, SurelyHot = 0.95;

    private string Settled(Batch batch, double celsius)
    {
        if (batch.Agreement.Stir)
            return BatchStates.Stir;
        var held = batch.State is BatchStates.InRange or BatchStates.OneReading ? Edge : 0;
        if (celsius < low - held)
            return BatchStates.TooCold;
        if (celsius > high + held)
            return BatchStates.TooHot;
        return batch.Agreement.Confirmed ? BatchStates.InRange : BatchStates.OneReading;
    }

    private string Unsettled(Batch batch, in ProbeView view, ProbeTracker tracker, double? settledBefore, DateTimeOffset at)
    {
        if (view.Place == ProbePlace.Leaving)
            return batch.State;

        if (tracker.Returning && settledBefore is { } before && batch.State is not (BatchStates.Warming or BatchStates.Unmeasured)
            && MayBeBack(view, tracker, before, at))
        {
            return batch.State;
        }

        if (view.Rising)
            return BatchStates.Warming;
        return batch.State is BatchStates.InRange or BatchStates.OneReading or BatchStates.Stop ? BatchStates.Unmeasured : batch.State;
    }

    // Lifted for a moment and put back: it is in the batch of before until the forecast says otherwise, which it must not leave open for long.
    private bool MayBeBack(in ProbeView view, ProbeTracker tracker, double before, DateTimeOffset at)
    {
        var limit = Math.Min(before + (double)options.SpreadCelsius, stop);
        var isOpen = at.Seconds() - tracker.DippedAt <= 3 + (2 * (tracker.Lag.ConstantSeconds ?? 0));
        return view.Celsius - ((isOpen ? 2 : 1) * view.Deviation) < limit;
    }
}
