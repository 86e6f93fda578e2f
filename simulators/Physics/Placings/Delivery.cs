using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Physics.Placings;

/// <summary>A reading and when it reached the station.</summary>
/// <param name="ArrivesAt">Seconds, never before the reading was taken and never back.</param>
/// <param name="Sample">As the scale showed it.</param>
public readonly record struct Delivered(double ArrivesAt, ScaleSample Sample);

/// <summary>A link's lateness: some hold readings back and deliver them in lumps.</summary>
/// <param name="DelaySeconds">At least this late.</param>
/// <param name="LumpSeconds">Mean time between two deliveries; 0: each reading on its own.</param>
public sealed record Delivery(double DelaySeconds, double LumpSeconds)
{
    public static Delivery AtOnce { get; } = new(0, 0);

    public IEnumerable<Delivered> Deliver(IEnumerable<ScaleSample> samples, ulong seed)
    {
        var random = new SeededRandom(seed);
        var door = 0.0;
        foreach (var sample in samples)
        {
            while (LumpSeconds > 0 && door < sample.Seconds)
                door += LumpSeconds * random.Between(0.5, 1.5);
            yield return new(Math.Max(door, sample.Seconds) + DelaySeconds, sample);
        }
    }
}
