using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Pan;

namespace CaptureAgent.Simulators.Physics.Placings.Families;

/// <summary>Hands that deceive: a plateau more still than a chick, a press before the lift, a hand that never leaves.</summary>
internal static class Hands
{
    public static IEnumerable<PlacingFamily> All =>
    [
        new("still hand, then let go", 4, true, true, random => HeldFirst(random, random.Between(0.15, 0.6), random.Between(2, 5), random.LogBetween(0.0002, 0.001))),
        new("still hand near the weight, then let go", 0.4, true, true, random => HeldFirst(random, random.Pick(-1, 1) * random.Between(0.008, 0.03), random.Between(2, 5), random.LogBetween(0.0002, 0.001))),
        new("unsteady hand, then let go", 4, true, true, random => HeldFirst(random, random.Between(0.1, 0.6), random.Between(1.5, 4), random.Between(0.02, 0.1))),
        new("hand rests after a short stay", 3, false, true, ShortStay),
        new("still hand before the lift", 4, true, true, PressedLast),
        new("never let go", 3, false, false, NeverLetGo),
        new("somebody steadies the pan", 2, false, false, SteadiedPan),
    ];

    private static PlacingDraft Start(SeededRandom random) =>
        new PlacingDraft(random, Ordinary.AnyMass(random), Ordinary.AnyTemperament(random)).LayLiner();

    private static PlacingDraft HeldFirst(SeededRandom random, double support, double seconds, double unsteadiness) =>
        Ordinary.Finish(Start(random).Lower(support, seconds, unsteadiness).LetGo());

    private static PlacingDraft ShortStay(SeededRandom random) => Start(random)
        .Lower()
        .LetGo(random.Between(1.5, 5))
        .Return(random.Pick(-1, 1) * random.Between(0.02, 0.3), random.Between(4, 10), random.LogBetween(0.0003, 0.003))
        .Lift();

    private static PlacingDraft PressedLast(SeededRandom random) => Start(random)
        .Lower()
        .LetGo(random.Between(15, 22))
        .Return(random.Pick(-0.3, -0.1, 0.1, 0.4), random.Between(3, 6), random.LogBetween(0.0003, 0.003))
        .Lift();

    // The support lies further off than the band, else there would be nothing to find.
    private static PlacingDraft NeverLetGo(SeededRandom random) => Start(random)
        .Lower(random.Pick(-1, 1) * random.Between(0.05, 0.5), random.Between(3, 12), random.LogBetween(0.0005, 0.02))
        .Lift();

    private static PlacingDraft SteadiedPan(SeededRandom random)
    {
        var draft = new PlacingDraft(random, Ordinary.AnyMass(random), Temperament.Restless(random)).LayLiner();
        var grams = random.Pick(-1, 1) * draft.ChickGrams * random.Between(0.05, 0.2);
        draft.Add(new Lean(draft.Now - 0.5, 40, grams, Math.Abs(grams) * 0.3));
        return Ordinary.Finish(draft.Lower().LetGo(random.Between(10, 20)));
    }
}
