using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Agent.Feeding;

/// <summary>Says of each reading whether the probe is in something warm, and whether it has come to rest there. A probe that still rises reads low.</summary>
internal sealed class ProbeWatch
{
    /// <summary>Warmer than a room, colder than any formula that is fed.</summary>
    private const decimal Warm = 30;

    /// <summary>A probe is at rest when it has changed by less than this for five seconds (common practice, no source).</summary>
    private const decimal RestSpread = 0.1m;

    private static readonly TimeSpan RestTime = TimeSpan.FromSeconds(5);

    private readonly Queue<(DateTimeOffset At, decimal Celsius)> recent = [];
    private DateTimeOffset? since;

    public void Reset()
    {
        recent.Clear();
        since = null;
    }

    /// <summary>Null for a reading in air or rinse water.</summary>
    public (decimal UncertaintyCelsius, bool Settled)? Take(DateTimeOffset at, in ProbeReading reading)
    {
        if (reading.Celsius < Warm)
        {
            Reset();
            return null;
        }

        since ??= at;
        recent.Enqueue((at, reading.Celsius));
        while (at - recent.Peek().At > RestTime)
            recent.Dequeue();
        var spread = recent.Max(one => one.Celsius) - recent.Min(one => one.Celsius);
        var settled = at - since >= RestTime && recent.Count >= 3 && spread <= Math.Max(RestSpread, reading.ResolutionCelsius);

        // Half a degree of accuracy (the class of EN 13485 that fits) and one step of resolution, both rectangular.
        var uncertainty = Math.Sqrt(0.5 * 0.5 / 3 + (double)(reading.ResolutionCelsius * reading.ResolutionCelsius) / 12);
        return (Math.Round((decimal)uncertainty, 2), settled);
    }
}
