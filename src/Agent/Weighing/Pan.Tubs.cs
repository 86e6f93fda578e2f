using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Weighing;

// A tub that came onto the bare pan with an animal in it, put back after a weighing, say: what stays when the animal is taken out is the liner.
// And what is dropped or laid onto a liner before the chick comes: it belongs to the tare.
internal sealed partial class Pan
{
    /// <summary>Share of what the chick should weigh that a hand cannot leave on the pan and be still: it would have to hover.</summary>
    private const double ThingShare = 0.15;

    /// <summary>Droppings weigh 0.3 to 3 g, a tissue little more (common practice, no source); what is heavier may be a small chick under another's code.</summary>
    private const double ThingGrams = 5;

    /// <summary>Who takes a tub off to fetch a chick in it is back sooner.</summary>
    private const double TakenSeconds = 30;

    private Rest? taken, bareSeen;

    /// <summary>The liner that was taken off, since when nothing was weighed on another: what comes next may have it under it. Null: there is none.</summary>
    public Rest? Taken => taken is { } liner && (Load?.Seconds ?? LastSeconds) - liner.Since <= TakenSeconds ? liner : null;

    /// <summary>What it weighs, in grams.</summary>
    public double TakenGrams => Taken is { } liner ? liner.Grams - BareLevel : 0;

    /// <summary>The load came with <see cref="Taken"/> under it, and is weighed from there since it came.</summary>
    public Placing LoadIsOnTaken()
    {
        Replay(Load!.Seconds, Taken!, Load.Samples);
        (Load.Announced, Load.Animal) = (true, true);
        return Load;
    }

    /// <summary>What came onto the liner weighs next to nothing beside the chick that is awaited, and lies in stable equilibrium: a dropping, a tissue.</summary>
    public bool ThingLies => Load is { Tare: { Lined: true } tare, Expected: { } chick } load
        && recent.TryWindow(ZeroTracking.EquilibriumSeconds, load.Seconds, out var window) && IsStill(window)
        && window.Median - tare.Grams > Least && IsThing(window.Median - tare.Grams, chick.Grams);

    /// <summary>So still a load is next to nothing beside a chick.</summary>
    public static bool IsThing(double grams, double chick) => grams < ThingGrams && IsLittle(grams, chick);

    /// <summary>Too little for a chick under any hand.</summary>
    public static bool IsLittle(double grams, double chick) => grams < ThingShare * chick;

    /// <summary>What lies there is the tare now: <see cref="ThingLies"/>.</summary>
    public void ThingIsLiner()
    {
        var (under, before) = (Load!.Tare!.Bare, Load.Tare.Grams);
        recent.TryWindow(StillSeconds, Load.Seconds, out var window);
        EndLoad();
        SetRest(window.Median, window, lined: true);
        Rest = Rest! with { Laid = window.Median - before };
        announcedTare = Rest.Grams;
        if (under is null)
            return;
        Rest = Rest with { Bare = under };
        BeginDoubt(under);
    }

    /// <summary>Share of the load that a hand may have pressed, or the animal thrown, on top of its weight.</summary>
    private const double PressedShare = 0.12;

    // Part of an uncoded load went, and the rest lies as still as a thing: at once where a liner of this weight was used before, else when no hand can be carrying it.
    private Window? AnimalTakenOut(Placing load, Rest tare)
    {
        if (load.IsDecided)
            return StayedWithout(load, tare);
        if (load.CodedSeconds is not null)
            return StayedUndecided(load, tare);
        if (tare.Lined || !load.Announced || !recent.TryWindow(StillSeconds, load.Seconds, out var window) || !IsStill(window))
            return null;
        var level = window.Median - tare.Grams;
        if (level > HeaviestLiner || load.Peak - level <= Math.Max(Least, PressedShare * load.Peak))
            return null;
        if (Liners.Any(liner => Math.Abs(liner - level) <= Math.Max(Least, 0.01 * liner)))
            return window;
        return recent.TryWindow(HandEvidence.HandSeconds, load.Seconds, out var longer) && IsStill(longer) ? longer : null;
    }

    // The animal was weighed, and what lies there now is far less, and a thing: a tissue, or all that the tare did not know of. Else nothing more could ever be weighed here.
    private Window? StayedWithout(Placing load, Rest tare)
    {
        const double Soon = 2;
        const double Swaying = 0.1;
        if (!recent.TryWindow(Soon, load.Seconds, out var window))
            return null;
        var level = window.Median - tare.Grams;
        if (level > HeaviestLiner)
            return null;
        if (IsFarBelow(level, load) && window.Range <= Swaying * load.Peak)
            return window;
        var was = double.IsNaN(load.DecidedGrams) ? load.Peak : load.DecidedGrams;
        return was - level > Math.Max(Least, PressedShare * was) && IsStill(window) && recent.TryWindow(HandEvidence.HandSeconds, load.Seconds, out var longer) && IsStill(longer) ? longer : null;
    }

    // Of one that is not decided, and has a code: a hand that carries half of it is not so still for so long.
    private Window? StayedUndecided(Placing load, Rest tare) =>
        recent.TryWindow(HandEvidence.HandSeconds, load.Seconds, out var window) && IsStill(window) && window.Median - tare.Grams is var level && level <= HeaviestLiner && IsFarBelow(level, load) ? window : null;

    // Less than any press or flap had added.
    private bool IsFarBelow(double level, Placing load) => level < 0.5 * load.Peak && load.Peak - level > Least;

    private PanChange LeaveLiner(Placing load, Rest tare, in Window left)
    {
        load.PartLeft = true;
        lowSince = double.NaN;
        var lifted = Lift(load);
        load.LeftSeconds = LastAbove(load, tare.Grams, (load.Peak + left.Median - tare.Grams) / 2);
        SetRest(left.Median, left, lined: true);
        return lifted | Announce();
    }

    // Half-way down from the animal to what stayed: when it was taken out.
    private double LastAbove(Placing load, double tare, double net)
    {
        for (var i = load.Samples.Count - 1; i >= 0; i--)
        {
            if (load.Samples[i].Range == LoadRange.Within && (double)load.Samples[i].Grams - tare > net)
                return load.Samples[i].Seconds;
        }

        return LastSeconds;
    }
}
