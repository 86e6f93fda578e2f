using CaptureAgent.Simulators.Physics.Pan;

namespace CaptureAgent.Simulators.Physics.Placings;

/// <summary>The same placings by a keeper in a hurry: most chicks are set down and let go at once, and all are taken again after a short stay.</summary>
/// <remarks>Nothing shows a hand that leaves, and there is little time to wait for one. How common this is nobody has counted; shares and seconds have no source.</remarks>
public static class HastyHands
{
    /// <summary>Of those that no hand deceives by holding on, the share that is let go at once.</summary>
    private const double AtOnce = 0.65;

    /// <summary>Seconds for which a chick is left alone, at least and at most.</summary>
    private const double ShortestStay = 6.5, LongestStay = 12;

    public static Placing Hasten(Placing placing)
    {
        var random = new SeededRandom(placing.Seed ^ 0xA57E);
        var truth = placing.Truth;
        if (double.IsNaN(truth.HandsOffAt) || truth.HandsBackAt - truth.HandsOffAt < LongestStay)
            return placing;
        var early = 0.0;
        var actions = placing.Actions;
        var hands = actions.OfType<Grip>().Where(grip => grip.Load == PlacingDraft.Chick).Take(2).ToArray();
        if (hands is [var lowered, var released] && !placing.Family.Contains("hand", StringComparison.Ordinal) && Math.Abs(released.At + released.Seconds - truth.HandsOffAt) < 1e-6 && random.Chance(AtOnce))
        {
            early = truth.HandsOffAt - (lowered.At + lowered.Seconds);
            actions = [.. actions.Where(action => action != released).Select(action => action == lowered ? lowered with { Support = 0, Unsteadiness = 0 } : action)];
        }

        var off = truth.HandsOffAt - early;
        var back = off + random.Between(ShortestStay, LongestStay);
        var before = truth.HandsBackAt - back;
        // What happens while the hand is on and the chick is left alone comes as much earlier as the release; the hand's return, and what follows it, with the return.
        return placing with
        {
            Actions = [.. actions.Select(action => action.At >= truth.HandsBackAt - 1e-9 ? action with { At = action.At - before } : action == actions[0] || action.At < off ? action : action with { At = action.At - early })],
            Seconds = placing.Seconds - before,
            CodeAt = placing.CodeAt > off ? placing.CodeAt - early : placing.CodeAt,
            Truth = truth with { HandsOffAt = off, HandsBackAt = back },
        };
    }
}
