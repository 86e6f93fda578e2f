using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Physics.Placings;

/// <summary>Writes a placing's script step by step, each step after the one before; what is not said is drawn.</summary>
public sealed class PlacingDraft
{
    public const string Liner = "liner";
    public const string Chick = "chick";

    private readonly List<PanLoad> loads = [];
    private readonly List<PanAction> actions = [];
    private readonly List<ScaleKey> keys = [];
    private double handsOff = double.NaN;
    private double handsBack;

    public PlacingDraft(SeededRandom random, double chickGrams, Temperament temperament, ScaleSpecification? scale = null, double? linerGrams = null)
    {
        Random = random;
        ChickGrams = chickGrams;
        Scale = scale ?? DrawScale(random, chickGrams);
        LinerGrams = linerGrams ?? (random.Chance(0.75) ? random.Between(5, 15) : random.Between(60, 250));
        loads.Add(new(Liner, LinerGrams));
        loads.Add(new(Chick, chickGrams, temperament));
    }

    public SeededRandom Random { get; }

    public double ChickGrams { get; }

    public double LinerGrams { get; }

    public ScaleSpecification Scale { get; set; }

    public Delivery Delivery { get; set; } = Delivery.AtOnce;

    /// <summary>Where the next step begins.</summary>
    public double Now { get; private set; } = 1;

    public double? CodeAt { get; set; }

    /// <summary>When the hand let go; not a number before that.</summary>
    public double HandsOff => handsOff;

    public PlacingDraft Wait(double seconds)
    {
        Now += seconds;
        return this;
    }

    public PlacingDraft Add(PanAction action)
    {
        actions.Add(action);
        return this;
    }

    public PlacingDraft Add(PanLoad load)
    {
        loads.Add(load);
        return this;
    }

    public PlacingDraft Press(ScaleKey key)
    {
        keys.Add(key);
        return this;
    }

    /// <summary>The towel or tub is laid on the bare pan and lies there long enough to be tared.</summary>
    public PlacingDraft LayLiner()
    {
        Add(new Grip(Now, Liner, Random.Between(0.2, 0.5), 0) { Overshoot = Random.Between(0, 0.5) });
        return Wait(Random.Between(3.5, 6));
    }

    /// <summary>A hand lowers the chick and goes on carrying a share of it (below 0: presses) for a while.</summary>
    public PlacingDraft Lower(double support, double seconds, double unsteadiness)
    {
        CodeAt ??= Random.Chance(0.6) ? Now - Random.Between(0.5, 2) : null;
        var ramp = Random.Between(0.3, 0.8);
        Add(new Grip(Now, Chick, ramp, support) { Unsteadiness = unsteadiness, Overshoot = Random.Between(0.05, 0.4) });
        return Wait(ramp + seconds);
    }

    /// <summary>As most placings: lowered, held for a moment by a hand as steady as hands are.</summary>
    public PlacingDraft Lower() => Lower(Random.Between(0.1, 0.7), Random.Between(0.2, 1.5), Random.LogBetween(0.005, 0.06));

    /// <summary>The hand lets go and stays away.</summary>
    public PlacingDraft LetGo(double staySeconds)
    {
        var ramp = Random.Between(0.1, 0.4);
        Add(new Grip(Now, Chick, ramp, 0));
        handsOff = Now + ramp;
        handsBack = handsOff + staySeconds;
        CodeAt ??= handsOff + Random.Between(0.5, 3);
        Now = handsBack;
        return this;
    }

    public PlacingDraft LetGo() => LetGo(Random.Between(18, 30));

    /// <summary>The hand comes back, rests on the chick or takes some of its weight.</summary>
    public PlacingDraft Return(double support, double seconds, double unsteadiness)
    {
        Add(new Grip(Now, Chick, 0.25, support) { Unsteadiness = unsteadiness });
        return Wait(0.25 + seconds);
    }

    /// <summary>The chick is lifted; the liner lies on alone.</summary>
    public PlacingDraft Lift()
    {
        if (handsBack == 0)
            handsBack = Now;
        Add(new Grip(Now, Chick, Random.Between(0.3, 0.6), 1) { Calming = 0.5 });
        return Wait(4);
    }

    /// <param name="family">The kind of placing.</param>
    /// <param name="seed">Of its forces and its scale.</param>
    /// <param name="mustRecord">Whether an accepted weight is due.</param>
    /// <param name="mayRecord">Whether an accepted weight within the band is no error.</param>
    public Placing Build(string family, ulong seed, bool mustRecord, bool mayRecord) => new()
    {
        Family = family,
        Seed = seed,
        Scale = Scale,
        Loads = loads,
        Actions = actions,
        Keys = keys,
        Seconds = Now,
        CodeAt = CodeAt,
        Delivery = Delivery,
        ExpectedGrams = ChickGrams * (1 + (0.025 * Math.Clamp(Random.Normal(), -2.5, 2.5))),
        Truth = new(Chick, ChickGrams, handsOff, handsBack, mustRecord, mayRecord),
    };

    /// <summary>A scale that fits the chick, with errors within a plausible specification.</summary>
    private static ScaleSpecification DrawScale(SeededRandom random, double chickGrams)
    {
        var division = chickGrams < 60 ? 0.1m : chickGrams < 200 ? random.Pick(0.1m, 0.1m, 0.1m, 0.5m) : random.Pick(0.1m, 0.1m, 0.5m, 1m, 1m, 2m);
        var hertz = random.Pick(2.0, 4, 5, 8, 10, 10, 10, 20, 50);
        return new()
        {
            DivisionGrams = division,
            SampleHertz = hertz,
            JitterSeconds = random.Chance(0.5) ? 0 : random.Between(0.02, 0.2) / hertz,
            FilterSeconds = random.LogBetween(0.06, 0.5),
            FilterOrder = random.Pick(1, 2),
            NoiseGrams = (double)division * random.Between(0.05, 0.25),
            GainError = random.Between(-0.0004, 0.0004),
            DriftGramsPerMinute = (double)division * random.Between(-0.2, 0.2),
            WanderGramsPerRootMinute = (double)division * 0.05,
            TracksZero = random.Chance(0.5),
            FlagSeconds = random.Between(0.5, 1.2),
            FlagDivisions = random.Pick(1.0, 1.0, 2.0, 3.0),
            Flag = random.Chance(0.92) ? FlagConduct.Honest : FlagConduct.Absent,
        };
    }
}
