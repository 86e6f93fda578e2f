using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>Many independent trials, on every core; the same for a seed however they are shared out.</summary>
internal static class Draws
{
    public static T[] Each<T>(int count, ulong seed, Func<SeededRandom, T> play)
    {
        var results = new T[count];
        Parallel.For(0, count, i => results[i] = play(new SeededRandom((seed << 32) + (ulong)i)));
        return results;
    }
}
