using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Weighing;

// A still load that is only presumed to be the liner may be the chick: what it does while it lies there, and that it goes again, is not forgotten.
internal sealed partial class Pan
{
    /// <summary>What came and went in less time was put there by mistake, or is a bump.</summary>
    public const double PassingSeconds = 1.5;

    /// <summary>A stir of what lies there is over sooner than any load, and small beside it.</summary>
    private const double StirSeconds = 2;

    private const double StirShare = 0.15;

    /// <summary>What took a code and comes to less than this share of what its chick should weigh is a stir.</summary>
    private const double FarBelow = 0.2;

    /// <summary>Readings of a load in doubt that are kept.</summary>
    private const double DoubtSeconds = 120;

    /// <summary>What has moved for so long is neither on its way behind the filter nor about to be covered.</summary>
    private const double StirringSeconds = 1.5;

    /// <summary>A thing lies in equilibrium so long after it came to rest; a chick that sleeps may, too.</summary>
    private const double LaySeconds = 2;

    private Placing? doubted;
    private bool followsDoubt;
    private double stirsSince = double.NaN;
    private bool doubtLay;

    /// <summary>What was presumed to be the liner, or never lay still on a bare pan, and was taken away again.</summary>
    public Placing? Gone { get; private set; }

    /// <summary>What <see cref="Gone"/> weighed, in grams, and when it was taken away.</summary>
    public (double Grams, double Seconds) GoneWith { get; private set; }

    /// <summary>What is presumed to be the liner moves as only an animal does.</summary>
    public bool DoubtStirs => Rest?.Bare is not null && doubted is { } here && (here.Animal || LastSeconds - stirsSince >= StirringSeconds);

    /// <summary>It lay in stable equilibrium, as things do, before it stirred, and stirs no more than under a fan, or as regularly.</summary>
    public bool DoubtLay => doubtLay && (swaysBy > 0 || recent.TryWindow(StillSeconds, Rest!.Since, out var window) && window.Deviation <= MostHum);

    /// <summary>What is presumed to be the liner is no longer all there.</summary>
    public bool IsLeft(in PanSample next) =>
        Load is null && Rest is { Bare: not null } presumed && next.Range == LoadRange.Within && (double)next.Grams < presumed.Grams - Least - swaysBy;

    /// <summary>What is only presumed to be the liner lay in stable equilibrium before the load came, as things do.</summary>
    public bool LinerLay => doubtLay;

    /// <summary>What lay there before the load was a hand that carried part of it: it lies on the bare pan, and is weighed from there since it came.</summary>
    public Placing LoadIsOnBarePan()
    {
        EndDoubt();
        Replay(Load!.Seconds, Load.Tare!.Bare!.Certain, Load.Samples);
        (Load.Announced, Load.Animal) = (true, true);
        return Load;
    }

    // It goes on being weighed from the bare pan.
    private void Doubt(Placing load)
    {
        doubted = load;
        followsDoubt = true;
    }

    private void EndDoubt()
    {
        doubted = null;
        followsDoubt = false;
        stirsSince = double.NaN;
        doubtLay = false;
    }

    private void WatchDoubt(in PanSample sample)
    {
        if (Load is not null || Rest?.Bare is not { } under || doubted is null)
            return;
        if (sample.Seconds - doubted.Seconds > DoubtSeconds)
        {
            BeginDoubt(under);
            return;
        }

        doubted.Add(sample);
        if (followsDoubt)
            settler.Add(sample.Seconds, (double)sample.Grams - under.Grams);
        if (!Stirs())
            (stirsSince, doubtLay) = (double.NaN, doubtLay || sample.Seconds - Rest!.Since >= LaySeconds && InEquilibrium());
        else if (double.IsNaN(stirsSince))
            stirsSince = sample.Seconds;
    }

    // Now, and about a level: a tail has moved in one direction, and lies still in the end.
    private bool Stirs() => followsDoubt && settler.Motion.Force > Math.Max(0.8 * Division, 3 * stillDeviation)
        && recent.TryWindow(StillSeconds, Rest!.Since, out var window) && !IsStill(window) && Math.Abs(window.Change) < window.Range / 2;

    private void BeginDoubt(Rest under)
    {
        under = under.Certain;
        doubted = new Placing(LastSeconds, under, history) { Animal = doubted?.Animal == true, UnitChanged = doubted?.UnitChanged == true };
        Begin(doubted, LastSeconds, under);
        settler.Add(LastSeconds, lastGrams - under.Grams);
        followsDoubt = true;
    }

    // The pan came to rest again: without what was in doubt, with it, or with something that nobody saw come.
    private PanChange ConsiderDoubt(bool wasSuspect)
    {
        if (before is not { } last || wasSuspect)
            return PanChange.None;
        var level = Rest!.Grams;
        var change = PanChange.None;

        // What moved as only an animal does comes to rest at another level each time.
        var same = doubted is { Animal: true } ? Math.Max(Least, StirShare * last.PresumedGrams) : Least;
        if (doubted is { } gone && last.Bare is not null && level < last.Grams - same)
            change = Leave(gone, last.PresumedGrams, leftAt);
        if (Math.Abs(level - last.Grams) > same)
            EndDoubt();

        // What rose from a presumed liner as it came to rest may be another thing on it, or one that a hand had carried for a moment.
        var deeper = last.Bare is { } carried && leftAt - last.Since < HandEvidence.HandSeconds ? carried.Certain : null;
        var under = last.Bare is { } below && level <= last.Grams + same ? below : last with { Bare = deeper };
        if (level <= under.Grams + Least)
            return change;
        Rest = Rest with { Bare = under };
        BeginDoubt(under);
        doubted!.UnitChanged |= restIsSwitched;
        return change;
    }

    private PanChange Leave(Placing gone, double grams, double seconds)
    {
        Gone = gone;
        GoneWith = (grams, seconds);
        return PanChange.Gone;
    }

    // On a bare pan, and never still enough for a liner nor lively enough for an animal.
    private PanChange LeaveUnseen(Placing load)
    {
        if (load.Tare is not { Lined: false } || load.Stay < PassingSeconds)
            return PanChange.None;
        var grams = double.IsNaN(settler.Grams) ? load.Peak : settler.Grams;
        return Leave(load, grams, leftAt);
    }

    // A load with a code of its own, or one that is no stir by its size: what lay under it is the liner.
    private void LiftedFrom(Placing load)
    {
        var presumed = load.Tare is { Bare: not null } tare && doubted is not null && lastGrams > tare.Grams - Least;
        load.IsStir = presumed && IsOwnMove(load) || IsFarBelowExpected(load) && (IsTouch(load) || presumed && MayBeExpected(load));
        if (presumed && load.IsStir)
            doubted!.Animal |= IsOwnMove(load);
        else if (before is { Bare: not null } && lastGrams > before.Grams - Least && (load.CodedSeconds is not null || load.Peak >= StirShare * before.PresumedGrams))
            before = before.Certain;
    }

    // What was taken for a load on the presumed liner was its own movement.
    private static bool IsOwnMove(Placing load) => IsTouch(load) && load.Peak < StirShare * load.Tare!.PresumedGrams;

    // A hand that straightens the liner, a beat of a hum, a bump: gone before anything could be weighed.
    private static bool IsTouch(Placing load) => load.Stay < StirSeconds;

    // What is presumed to be the liner is heavy enough for the chick whose code its stir took.
    private static bool MayBeExpected(Placing load) => load.Tare!.PresumedGrams > load.Expected!.Value.Grams / 2;

    // Nor is it a load where it is a small part of the chick whose code it took.
    private static bool IsFarBelowExpected(Placing load) => load.Expected is { } expected && load.Peak < FarBelow * expected.Grams;
}
