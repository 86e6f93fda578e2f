using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Physics.Placings.Families;

/// <summary>A chick is placed, let go, lifted: all of these must be recorded.</summary>
internal static class Ordinary
{
    public static IEnumerable<PlacingFamily> All =>
    [
        Recorded("sleeper", 4, r => Plain(r, Mass(r), Temperament.Sleeper(r))),
        Recorded("calm", 8, r => Plain(r, Mass(r), Temperament.Calm(r))),
        Recorded("restless", 7, r => Plain(r, Mass(r), Temperament.Restless(r))),
        Recorded("flapper", 4, r => Plain(r, Mass(r), Temperament.Flapper(r))),
        Recorded("hatchling", 3, r => Plain(r, r.LogBetween(2.5, 20), r.Chance(0.5) ? Temperament.Sleeper(r) : Temperament.Calm(r))),
        Recorded("macaw that flaps", 4, r => Plain(r, r.Between(700, 1100), Temperament.Flapper(r))),
        Recorded("soiled liner", 3, Soiled),
        Recorded("flag stuck at stable", 1, r => WithFlag(r, FlagConduct.StuckAtStable)),
        Recorded("flag stuck at unstable", 2, r => WithFlag(r, FlagConduct.StuckAtUnstable)),
    ];

    public static double Mass(SeededRandom random) => random.LogBetween(20, 900);

    /// <summary>Of those that something else touches: a hatchling among seven, for hands and towels spare none.</summary>
    public static double AnyMass(SeededRandom random) => random.Chance(0.15) ? random.LogBetween(2.5, 20) : Mass(random);

    public static Temperament AnyTemperament(SeededRandom random) => random.Unit() switch
    {
        < 0.25 => Temperament.Sleeper(random),
        < 0.65 => Temperament.Calm(random),
        < 0.9 => Temperament.Restless(random),
        _ => Temperament.Flapper(random),
    };

    public static PlacingDraft Plain(SeededRandom random, double grams, Temperament temperament)
    {
        var draft = new PlacingDraft(random, grams, temperament).LayLiner().Lower().LetGo();
        return Finish(draft);
    }

    /// <summary>The hand comes back for a while, as hands do, and lifts.</summary>
    public static PlacingDraft Finish(PlacingDraft draft)
    {
        var random = draft.Random;
        return draft.Return(random.Between(-0.15, 0.5), random.Between(0.3, 2), random.LogBetween(0.004, 0.05)).Lift();
    }

    private static PlacingDraft Soiled(SeededRandom random)
    {
        var grams = Mass(random);
        var draft = new PlacingDraft(random, grams, AnyTemperament(random)).LayLiner().Lower().LetGo();
        draft.Add(new Dropping(random.Between(draft.HandsOff, draft.Now), PlacingDraft.Chick, Math.Clamp(grams * random.Between(0.005, 0.01), 0.3, 3)));
        return Finish(draft);
    }

    private static PlacingDraft WithFlag(SeededRandom random, FlagConduct flag)
    {
        var draft = new PlacingDraft(random, Mass(random), AnyTemperament(random));
        draft.Scale = draft.Scale with { Flag = flag };
        return Finish(draft.LayLiner().Lower().LetGo());
    }

    private static PlacingFamily Recorded(string name, double weight, Func<SeededRandom, PlacingDraft> write) => new(name, weight, true, true, write);
}
