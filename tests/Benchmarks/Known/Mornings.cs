using CaptureAgent.Agent.Events;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Store;

namespace CaptureAgent.Benchmarks.Known;

/// <summary>What differs for one chick from morning to morning, and what the store keeps of its motion.</summary>
internal static class Mornings
{
    /// <summary>Of the weight from one morning to the next.</summary>
    public const double Growth = 1.05;

    /// <summary>Spread of the natural logarithm of its forces from morning to morning (a choice; no source).</summary>
    private const double Mood = 0.25;

    /// <summary>Each morning it is somewhat livelier or stiller.</summary>
    public static Temperament InMood(Temperament own, SeededRandom random)
    {
        var mood = Math.Exp(Mood * random.Normal());
        return own with { ShuffleForce = own.ShuffleForce * mood, BreathForce = own.BreathForce * mood };
    }

    /// <summary>A hand's physiological tremor: 5 to 10 Hz (from memory); its size on a pan is a guess.</summary>
    /// <param name="grams">What the chick weighs that it holds.</param>
    public static Hum Tremor(double from, double seconds, double grams, SeededRandom random) =>
        new(from, seconds, grams * random.LogBetween(0.001, 0.008), random.Between(5, 10));

    /// <summary>The motion of the weight that was accepted last, as it is stored; null where there was none.</summary>
    /// <param name="days">From the day that is played to the day it is kept under.</param>
    public static MotionRow? Motion(IEnumerable<StationEvent> events, string chick, int days) =>
        events.OfType<WeighingEvent>().LastOrDefault(told => told.Verdict == "accepted") is { Evidence.Motion: { } motion } weighing
            ? new MotionRow(weighing.Id, chick, weighing.Day.AddDays(days), "scale", (long)(weighing.Grams!.Value * 1000), motion)
            : null;
}
