namespace CaptureAgent.Agent.Weighing;

// A tub that came onto the bare pan with an animal in it, put back after a weighing, say: what stays when the animal is taken out is the liner.
internal sealed partial class Pan
{
    /// <summary>Share of the load that a hand may have pressed, or the animal thrown, on top of its weight.</summary>
    private const double PressedShare = 0.12;

    // Part of an uncoded load went, and the rest lies as still as a thing: at once where a liner of this weight was used before, else when no hand can be carrying it.
    private Window? AnimalTakenOut(Placing load, Rest tare)
    {
        if (tare.Lined || !load.Announced || load.CodedSeconds is not null || !recent.TryWindow(StillSeconds, load.Seconds, out var window) || !IsStill(window))
            return null;
        var level = window.Median - tare.Grams;
        if (level > HeaviestLiner || load.Peak - level <= Math.Max(Least, PressedShare * load.Peak))
            return null;
        if (Liners.Any(liner => Math.Abs(liner - level) <= Math.Max(Least, 0.01 * liner)))
            return window;
        return recent.TryWindow(HandEvidence.HandSeconds, load.Seconds, out var longer) && IsStill(longer) ? longer : null;
    }

    private PanChange LeaveLiner(Placing load, in Window left)
    {
        load.PartLeft = true;
        lowSince = double.NaN;
        var lifted = Lift(load);
        SetRest(left.Median, left, lined: true);
        return lifted | Announce();
    }
}
