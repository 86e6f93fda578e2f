namespace CaptureAgent.Simulators.Physics.Chicks;

/// <summary>How a chick moves. Forces are shares of its weight, so one temperament fits 2 g and 1.1 kg.</summary>
/// <remarks>Values are plausible round numbers, no source; they are the simulation's knobs.</remarks>
public sealed record Temperament(string Name)
{
    /// <summary>Breaths a second.</summary>
    public double BreathHertz { get; init; } = 1;

    /// <summary>Peak force of breathing.</summary>
    public double BreathForce { get; init; } = 0.0006;

    /// <summary>The frequency about which it shifts its body.</summary>
    public double ShuffleHertz { get; init; } = 1;

    /// <summary>Root mean square force while it shuffles.</summary>
    public double ShuffleForce { get; init; }

    /// <summary>Mean length of a bout of shuffling.</summary>
    public double ActiveSeconds { get; init; } = 2;

    /// <summary>Mean length of the rest between bouts.</summary>
    public double RestSeconds { get; init; } = 4;

    /// <summary>What is left of the shuffling in a rest, as a share.</summary>
    public double RestLevel { get; init; } = 0.1;

    /// <summary>0: it shifts about one place, as an oscillator does. Above: its speed wanders, smoothed twice by so many seconds, about no place; its mean force vanishes all the same, but later.</summary>
    public double AmbleSeconds { get; init; }

    public double FlapsPerMinute { get; init; }

    /// <summary>Peak force of a wing beat.</summary>
    public double FlapForce { get; init; } = 0.35;

    /// <summary>Breathes, and stirs now and then.</summary>
    public static Temperament Sleeper(SeededRandom random) => new("sleeper")
    {
        BreathHertz = random.Between(0.6, 1.4),
        BreathForce = random.LogBetween(0.0002, 0.001),
        ShuffleHertz = random.Between(0.5, 1),
        ShuffleForce = random.LogBetween(0.0005, 0.002),
        ActiveSeconds = 1,
        RestSeconds = 12,
    };

    /// <summary>Sits, looks about, shifts its feet.</summary>
    public static Temperament Calm(SeededRandom random) => new("calm")
    {
        BreathHertz = random.Between(0.8, 1.8),
        BreathForce = random.LogBetween(0.0005, 0.0015),
        ShuffleHertz = random.Between(0.7, 1.5),
        ShuffleForce = random.LogBetween(0.004, 0.012),
        ActiveSeconds = 2,
        RestSeconds = 3,
        RestLevel = 0.25,
    };

    /// <summary>Walks, turns, climbs at the rim.</summary>
    public static Temperament Restless(SeededRandom random) => new("restless")
    {
        BreathHertz = random.Between(1, 2.2),
        BreathForce = random.LogBetween(0.001, 0.002),
        ShuffleHertz = random.Between(0.9, 2.2),
        ShuffleForce = random.LogBetween(0.015, 0.04),
        ActiveSeconds = 5,
        RestSeconds = 1.5,
        RestLevel = 0.4,
        FlapsPerMinute = random.Between(0, 1),
    };

    /// <summary>Restless less of the time, but beats its wings.</summary>
    public static Temperament Flapper(SeededRandom random) => new("flapper")
    {
        BreathHertz = random.Between(1, 2),
        BreathForce = random.LogBetween(0.001, 0.002),
        ShuffleHertz = random.Between(0.8, 1.8),
        ShuffleForce = random.LogBetween(0.008, 0.025),
        ActiveSeconds = 3,
        RestSeconds = 2,
        RestLevel = 0.3,
        FlapsPerMinute = random.Between(4, 10),
        FlapForce = random.Between(0.2, 0.5),
    };
}
