using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Physics.Placings.Families;

/// <summary>What happens to scales and keepers in the early morning.</summary>
internal static class Mishaps
{
    private const string Mate = "mate";

    public static IEnumerable<PlacingFamily> All =>
    [
        new("scale tared by its own key", 3, true, true, OwnKey),
        new("unit switched under load", 1, false, false, UnitSwitched),
        new("power lost under load", 1, false, false, PowerLost),
        new("overload", 1, false, false, Overloaded),
        new("two chicks at once", 2, false, false, TwoAtOnce),
        new("tub lifted out and put back", 2, false, true, TubOutAndBack),
        new("lifted too early", 2, false, true, LiftedEarly),
    ];

    private static PlacingDraft Start(SeededRandom random, double? linerGrams = null) =>
        new PlacingDraft(random, Ordinary.Mass(random), Ordinary.AnyTemperament(random), null, linerGrams).LayLiner();

    private static PlacingDraft OwnKey(SeededRandom random)
    {
        var draft = Start(random);
        draft.Press(ScaleKey.Tare(draft.Now)).Wait(random.Between(2.5, 4));
        return Ordinary.Finish(draft.Lower().LetGo());
    }

    private static PlacingDraft UnitSwitched(SeededRandom random)
    {
        var draft = Start(random).Lower();
        draft.Press(ScaleKey.SwitchUnit(draft.Now + random.Between(-0.2, 0.6), random.Pick(DisplayUnit.Ounce, DisplayUnit.Kilogram, DisplayUnit.Pound)));
        return Ordinary.Finish(draft.LetGo());
    }

    private static PlacingDraft PowerLost(SeededRandom random)
    {
        var draft = Start(random).Lower();
        draft.Press(ScaleKey.CutPower(draft.Now + random.Between(-0.2, 0.6), random.Between(0.5, 3)));
        return Ordinary.Finish(draft.LetGo());
    }

    private static PlacingDraft Overloaded(SeededRandom random)
    {
        var draft = Start(random);
        draft.Scale = draft.Scale with { CapacityGrams = draft.LinerGrams + (draft.ChickGrams * 0.7) };
        return Ordinary.Finish(draft.Lower().LetGo());
    }

    private static PlacingDraft TwoAtOnce(SeededRandom random)
    {
        var draft = Start(random);
        draft.Add(new PanLoad(Mate, draft.ChickGrams * random.Between(0.7, 1.3), Ordinary.AnyTemperament(random)));
        draft.Add(new Grip(draft.Now - random.Between(0, 0.3), Mate, 0.5, 0));
        draft.Lower().LetGo();
        draft.Add(new Grip(draft.Now, Mate, 0.5, 1));
        return Ordinary.Finish(draft);
    }

    private static PlacingDraft TubOutAndBack(SeededRandom random)
    {
        var draft = Start(random, random.Between(60, 250)).Lower().LetGo(random.Between(1, 3));
        foreach (var support in (double[])[1, 0])
        {
            draft.Add(new Grip(draft.Now, PlacingDraft.Liner, 0.5, support)).Add(new Grip(draft.Now, PlacingDraft.Chick, 0.5, support));
            draft.Wait(random.Between(2, 5));
        }

        // In the tub the chick is touched by nobody: it stands again from half a second after the last grip on.
        return Ordinary.Finish(draft.LetGo(random.Between(15, 25)));
    }

    private static PlacingDraft LiftedEarly(SeededRandom random) =>
        Start(random).Lower().LetGo(random.Between(0.2, 1.2)).Lift();
}
