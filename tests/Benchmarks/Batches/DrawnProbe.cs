using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>A probe drawn at random: its constant between 2 and 12 s, two in five with a sheath, noise, resolution, rate.</summary>
/// <param name="SheathRatio">Second time constant as a part of the first; 0: none.</param>
/// <param name="PerSecond">Readings a second.</param>
internal sealed record DrawnProbe(double LagSeconds, double SheathRatio, double Noise, double Resolution, double PerSecond, double AirLag, double Room)
{
    /// <param name="fine">0.1 °C and at least two readings a second; else 0.1 or 0.5 and one to four.</param>
    public static DrawnProbe Draw(SeededRandom random, bool fine)
    {
        var lag = random.Between(2, 12);
        return new(
            lag,
            random.Chance(0.4) ? random.Between(0.05, 0.4) : 0,
            random.Between(0.01, 0.05),
            fine || random.Chance(0.6) ? 0.1 : 0.5,
            fine ? random.Pick(2, 3, 4) : random.Pick(1, 2, 4),
            lag * random.Between(3, 8),
            random.Between(19, 28));
    }

    /// <summary>Both time constants as one: after it about 63 % of a step is seen.</summary>
    public double Constant => LagSeconds * (1 + SheathRatio);

    public LaggingProbe Make(ulong seed) => new(new Bowl(40, Room), seed)
    {
        LagSeconds = LagSeconds,
        SheathRatio = SheathRatio,
        NoiseCelsius = Noise,
        ResolutionCelsius = (decimal)Resolution,
        AirLagSeconds = AirLag,
    };

    /// <summary>The probe at a station of its own, after some seconds in the room's air.</summary>
    public (LaggingProbe Probe, ProbeStation Station) BeginInAir(SeededRandom random, double leastSeconds, double mostSeconds)
    {
        var probe = Make(random.NextUInt64());
        var station = new ProbeStation(probe, PerSecond, random);
        station.Pass(random.Between(leastSeconds, mostSeconds));
        return (probe, station);
    }

    /// <summary>Half of the bowls are stirred: so much the temperature at the probe flutters, °C.</summary>
    public static double Flutter(SeededRandom random) => random.Chance(0.5) ? random.Between(0.02, 0.12) : 0;
}
