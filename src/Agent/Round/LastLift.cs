using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

/// <summary>A load that is gone, until the pan has shown what lies there without it.</summary>
/// <param name="seconds">When it was lifted.</param>
internal sealed class LastLift(Placing placing, double seconds)
{
    /// <summary>A pan that comes to rest later has been used for something else.</summary>
    private const double PatienceSeconds = 20;

    /// <summary>A heavier change is another liner, not a slip or a dropping (common practice, no source).</summary>
    private const double OtherLinerGrams = 20;

    public Placing Placing => placing;

    /// <summary>The decision on the load, once there is one.</summary>
    public WeighingEvent? Weighing { get; set; }

    public TareComparison? Comparison { get; private set; }

    /// <summary>Looks at the pan; false when there is nothing (more) to wait for.</summary>
    public bool Look(Pan pan)
    {
        if (Comparison is not null)
            return true;
        if (placing.Tare is not { } before || placing.LinkLost || placing.Restarted || placing.UnitChanged || placing.HastyTare)
            return false;
        if (pan.Load is not null || pan.LinerLeft(before) || pan.LastSeconds - seconds > PatienceSeconds)
            return false;
        if (pan.Rest is not { } after || !pan.TareIsEstablished)
            return true;
        if (Math.Abs(after.Grams - before.Grams) > OtherLinerGrams)
            return false;
        Comparison = TareComparison.Of(before, after, placing.WeighedSeconds);
        return true;
    }
}
