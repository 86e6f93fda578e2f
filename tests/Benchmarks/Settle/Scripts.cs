using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Placings;

namespace CaptureAgent.Benchmarks.Settle;

/// <summary>What the script of a placing tells to those who may know it.</summary>
internal static class Scripts
{
    /// <summary>When the chick (or its mate) starts on its way to the pan.</summary>
    public static double LoweredAt(this Placing placing) =>
        placing.Actions.OfType<Grip>().Where(grip => grip.Load != PlacingDraft.Liner).Min(grip => grip.At);

    /// <summary>When the liner has landed and its landing has swung out.</summary>
    public static double LinedAt(this Placing placing)
    {
        var landing = placing.Actions.OfType<Grip>().First(grip => grip.Load == PlacingDraft.Liner);
        return landing.At + (0.7 * landing.Seconds) + 1;
    }
}
