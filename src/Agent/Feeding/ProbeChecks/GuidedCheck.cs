using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Feeding.ProbeChecks;

/// <summary>A check of a probe that a card has begun: waits until a probe stands still near the known temperature.</summary>
internal sealed class GuidedCheck(BatchOptions options)
{
    public const double ToleranceCelsius = 1;

    /// <summary>Further off it is not in the bath yet.</summary>
    private const double Near = 6;

    private const double StillSeconds = 15, StillSpread = 0.2;

    private const int FewestReadings = 8;

    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(5);

    private readonly Dictionary<string, Queue<(double Seconds, double Celsius)>> still = new(StringComparer.Ordinal);

    /// <summary>What is being checked against; null: nothing.</summary>
    public string? Kind { get; private set; }

    public double Expected { get; private set; }

    public DateTimeOffset? Expires { get; private set; }

    /// <returns>The known temperature; null if the station has no reference.</returns>
    public double? Begin(string kind, DateTimeOffset at)
    {
        double? expected = kind switch
        {
            ProbeCheckKind.Ice => 0,
            ProbeCheckKind.Boil => options.BoilingCelsius is { } known ? (double)known : BoilingPoint.AtAltitude((double)options.AltitudeMetres),
            _ => (double?)options.ReferenceCelsius,
        };
        if (expected is not { } celsius)
            return null;
        (Kind, Expected, Expires) = (kind, celsius, at + Patience);
        still.Clear();
        return celsius;
    }

    public void End()
    {
        (Kind, Expires) = (null, null);
        still.Clear();
    }

    /// <summary>Whether this reading belongs to the check rather than to a batch.</summary>
    public bool Concerns(double celsius) => Kind is not null && Math.Abs(celsius - Expected) <= Near;

    /// <returns>What the probe shows at rest; null while it does not rest.</returns>
    public double? Take(string device, double seconds, double celsius, double resolution)
    {
        if (!still.TryGetValue(device, out var readings))
            still[device] = readings = [];
        readings.Enqueue((seconds, celsius));
        while (readings.Count > FewestReadings && seconds - readings.Peek().Seconds > StillSeconds)
            readings.Dequeue();
        var spread = readings.Max(one => one.Celsius) - readings.Min(one => one.Celsius);
        return readings.Count >= FewestReadings && seconds - readings.Peek().Seconds >= StillSeconds * 0.8 && spread <= Math.Max(StillSpread, resolution)
            ? readings.Average(one => one.Celsius)
            : null;
    }
}
