using CaptureAgent.Simulators.Physics.Pan;

namespace CaptureAgent.Simulators.Physics.Placings.Families;

/// <summary>The room, the bench and the link get in the way.</summary>
internal static class Surroundings
{
    public static IEnumerable<PlacingFamily> All =>
    [
        new("bumped bench", 3, true, true, Bumped),
        new("fan", 3, true, true, Fan),
        new("draught", 2, false, true, Draughty),
        new("towel hangs over", 2, false, false, Overhang),
        new("drifting zero", 3, true, true, Drifting),
        new("lumpy link", 3, true, true, Lumpy),
        new("liner slips", 1, true, true, Slipped),
    ];

    private static PlacingDraft Start(SeededRandom random) =>
        new PlacingDraft(random, Ordinary.AnyMass(random), Ordinary.AnyTemperament(random)).LayLiner();

    private static PlacingDraft Bumped(SeededRandom random)
    {
        var draft = Start(random).Lower().LetGo();
        for (var count = random.Pick(1, 2, 3); count > 0; count--)
            draft.Add(new Bump(random.Between(draft.HandsOff, draft.HandsOff + 8), draft.ChickGrams * random.Between(0.05, 0.5), random.Between(4, 10), random.Between(0.08, 0.25)));
        return Ordinary.Finish(draft);
    }

    // Near a multiple of the sampling rate the hum shows as a slow beat.
    private static PlacingDraft Fan(SeededRandom random)
    {
        var draft = Start(random);
        var multiple = Math.Max(1, Math.Round(random.Between(12, 30) / draft.Scale.SampleHertz));
        draft.Add(new Hum(0, 120, draft.ChickGrams * random.Between(0.002, 0.02), (multiple * draft.Scale.SampleHertz) + random.Between(0.1, 0.6)));
        return Ordinary.Finish(draft.Lower().LetGo());
    }

    private static PlacingDraft Draughty(SeededRandom random)
    {
        var draft = Start(random);
        draft.Add(new Draught(draft.Now, 60, draft.ChickGrams * random.Between(0.01, 0.05)));
        return Ordinary.Finish(draft.Lower().LetGo());
    }

    // With the chick on it the towel's edge touches the bench: some of the weight never reaches the pan, and more than the band, else there would be nothing to find.
    private static PlacingDraft Overhang(SeededRandom random)
    {
        var draft = Start(random);
        var least = 2.5 * (double)draft.Scale.DivisionGrams;
        draft.Lower().Add(new Lean(draft.Now - 0.3, 90, -Math.Max(least, draft.ChickGrams * random.Between(0.03, 0.12)), draft.ChickGrams * random.Between(0.005, 0.02)));
        return Ordinary.Finish(draft.LetGo());
    }

    // Just before the chick comes the liner is straightened: another level, by little more than a division.
    private static PlacingDraft Slipped(SeededRandom random)
    {
        var draft = Start(random);
        var grams = (double)draft.Scale.DivisionGrams * random.Pick(-1, 1) * random.Between(1.1, 2.5);
        draft.Add(new Lean(draft.Now - random.Between(0.9, 2.4), 120, grams, 0));
        return Ordinary.Finish(draft.Lower().LetGo());
    }

    private static PlacingDraft Drifting(SeededRandom random)
    {
        var draft = Start(random);
        var division = (double)draft.Scale.DivisionGrams;
        draft.Scale = draft.Scale with { DriftGramsPerMinute = division * random.Between(-2, 2), WanderGramsPerRootMinute = division * 0.3, WarmUpGrams = division * random.Between(-5, 5) };
        return Ordinary.Finish(draft.Lower().LetGo());
    }

    private static PlacingDraft Lumpy(SeededRandom random)
    {
        var draft = Start(random).Lower().LetGo();
        draft.Delivery = new(random.Between(0.02, 0.3), random.Between(0.3, 1.5));
        return Ordinary.Finish(draft);
    }
}
