using CaptureAgent.Benchmarks.Known;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Trees;

/// <summary>Placings whose chick, hands and scale are others than the benchmark draws, so that what is fitted to them holds for more than one simulation's habits.</summary>
/// <remarks>Spreads are plausible round numbers, no source.</remarks>
internal static class VariedPlacings
{
    /// <summary>Of those that are varied, the share whose chick trembles in place of shuffling: to a slow scale, level and white noise.</summary>
    private const double Trembling = 0.12;

    /// <summary>The share of placings by no deceiving hand whose chick is set down and let go at once.</summary>
    private const double AtOnce = 0.45;

    /// <summary>Of the others, the share that is pressed down as it lands, and carried no longer.</summary>
    private const double Pressed = 0.2;

    /// <summary>The share of chicks whose speed wanders about no place.</summary>
    private const double Ambling = 0.35;

    /// <summary>The share of deceiving hands that tremble, and of those that never let go and carry next to nothing.</summary>
    private const double Deceiving = 0.1;

    /// <summary>The same placing of another chick, by other hands, on another scale; the truth stays.</summary>
    public static Placing Vary(Placing placing, SeededRandom random)
    {
        var scale = Vary(placing.Scale, random);

        // A hum beats with the readings.
        if (placing.Actions.Any(action => action is Hum))
            scale = scale with { SampleHertz = placing.Scale.SampleHertz };
        var pace = random.Between(0.8, 1.25);
        var calming = random.Between(0.7, 0.99);
        return placing with
        {
            Scale = scale,
            Loads = [.. placing.Loads.Select(load => load with { Temperament = load.Temperament is { } own ? Vary(own, scale, random) : null })],
            Actions = [.. Hands(placing, random).Select(action => Vary(action, pace, calming, random))],
            Keys = [.. placing.Keys.Select(key => key with { At = key.At * pace })],
            Seconds = placing.Seconds * pace,
            CodeAt = placing.CodeAt * pace,
        };
    }

    /// <summary>The same placing on a scale that hardly filters, by hands that jerk, of a chick that lies still or trembles: plain levels and steps, as no other simulated placing has them.</summary>
    public static Placing MakePlain(Placing placing, SeededRandom random)
    {
        var scale = placing.Scale with { FilterSeconds = random.LogBetween(0.01, 0.1), FilterOrder = 1 };
        return placing with
        {
            Scale = scale,
            Loads = [.. placing.Loads.Select(load => load with { Temperament = load.Temperament is { } own ? Plain(own, scale, random) : null })],
            Actions = [.. placing.Actions.Select(action => action is Grip grip ? grip with { Seconds = Math.Min(grip.Seconds, random.Between(0.1, 0.6)), Overshoot = random.Between(0, 0.1) } : action)],
        };
    }

    private static Temperament Plain(Temperament own, ScaleSpecification scale, SeededRandom random) => random.Unit() switch
    {
        < 0.4 => Tremble(scale, random),
        < 0.7 => Temperament.Sleeper(random),
        _ => own,
    };

    private static IEnumerable<PanAction> Hands(Placing placing, SeededRandom random)
    {
        if (placing.Actions.OfType<Grip>().Where(grip => grip.Load == PlacingDraft.Chick).Take(2).ToArray() is not [var lowered, var next] || lowered.Support == 0)
            return placing.Actions;
        var deceives = placing.Family.Contains("hand", StringComparison.Ordinal) || next.Support != 0;
        if (!random.Chance(deceives ? Deceiving : AtOnce))
        {
            return deceives || !random.Chance(Pressed)
                ? placing.Actions
                : placing.Actions.Select(action => action == lowered ? lowered with { Support = -random.Between(0.05, 0.4), Unsteadiness = random.LogBetween(0.0003, 0.02) } : action);
        }

        if (!deceives)
            return placing.Actions.Select(action => action == lowered ? lowered with { Support = 0, Unsteadiness = 0 } : action);
        if (next.Support != 0)
            return placing.Actions.Select(action => action == lowered ? lowered with { Support = random.Pick(-1, 1) * random.Between(0.01, 0.06) } : action);
        return placing.Actions.Append(Mornings.Tremor(lowered.At, next.At - lowered.At, placing.Truth.NetGrams, random));
    }

    private static ScaleSpecification Vary(ScaleSpecification scale, SeededRandom random) => scale with
    {
        SampleHertz = Math.Clamp(scale.SampleHertz * Ratio(random, 0.15), 1.8, 50),
        FilterSeconds = scale.FilterSeconds * Ratio(random, 0.3),
        NoiseGrams = scale.NoiseGrams * Ratio(random, 0.4),
    };

    private static Temperament Vary(Temperament own, ScaleSpecification scale, SeededRandom random) => random.Chance(Trembling)
        ? Tremble(scale, random)
        : own with
        {
            BreathHertz = own.BreathHertz * Ratio(random, 0.25),
            BreathForce = own.BreathForce * Ratio(random, 0.5),
            ShuffleHertz = own.ShuffleHertz * Ratio(random, 0.35),
            ShuffleForce = own.ShuffleForce * Ratio(random, 0.4),
            ActiveSeconds = own.ActiveSeconds * Ratio(random, 0.5),
            RestSeconds = own.RestSeconds * Ratio(random, 0.5),
            RestLevel = Math.Min(1, own.RestLevel * Ratio(random, 0.7)),
            FlapsPerMinute = own.FlapsPerMinute * Ratio(random, 0.5),
            FlapForce = own.FlapForce * Ratio(random, 0.3),
            AmbleSeconds = random.Chance(Ambling) ? random.LogBetween(0.05, 0.2) : 0,
        };

    // As strong as to show from 0.05 to 0.8 % of the weight behind the scale's filter.
    private static Temperament Tremble(ScaleSpecification scale, SeededRandom random)
    {
        var hertz = random.Between(3, 9);
        var passed = Math.Pow(1 + Math.Pow(2 * Math.PI * hertz * scale.FilterSeconds, 2), -0.5 * scale.FilterOrder);
        return new("trembler") { ShuffleHertz = hertz, ShuffleForce = random.LogBetween(0.0005, 0.008) / passed, RestLevel = 1, BreathForce = 0 };
    }

    private static PanAction Vary(PanAction action, double pace, double calming, SeededRandom random) => action switch
    {
        Grip { Support: not 1, Load: PlacingDraft.Chick } grip => grip with
        {
            At = grip.At * pace,
            Seconds = grip.Seconds * pace * Ratio(random, 0.3),
            Support = Math.Min(0.95, grip.Support * Ratio(random, 0.3)),
            Unsteadiness = grip.Unsteadiness * Ratio(random, 0.5),
            Overshoot = grip.Overshoot * random.Between(0, 1.5),
            Calming = calming,
        },
        Grip grip => grip with { At = grip.At * pace, Seconds = grip.Seconds * pace },
        Lean lean => lean with { At = lean.At * pace, Seconds = lean.Seconds * pace, Grams = lean.Grams * random.LogBetween(0.3, 1.2), Wander = lean.Wander * random.LogBetween(0.1, 1.5) },
        Draught draught => draught with { At = draught.At * pace, Seconds = draught.Seconds * pace, Grams = draught.Grams * Ratio(random, 0.3) },
        Hum hum => hum with { At = hum.At * pace, Seconds = hum.Seconds * pace, Grams = hum.Grams * Ratio(random, 0.3) },
        _ => action with { At = action.At * pace },
    };

    private static double Ratio(SeededRandom random, double deviation) => Math.Exp(deviation * random.Normal());
}
