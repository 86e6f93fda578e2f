using CaptureAgent.Agent.Events;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>One dip: what was forecast at 1.8 time constants (and no fewer than eight readings), and by three points and the last reading, less the truth.</summary>
internal readonly record struct Dip(bool First, bool Sheathed, double Error, double Uncertainty, double ThreePoints, double LastReading);

/// <summary>How near the forecast is, at 0.1 °C and two to four readings a second.</summary>
internal static class Settling
{
    public const double Constants = 1.8;

    private const int FewestReadings = 8, Dips = 4;

    public static IReadOnlyList<Dip> Run(int probes, ulong seed) => [.. Draws.Each(probes, seed, Play).SelectMany(dips => dips)];

    private static List<Dip> Play(SeededRandom random)
    {
        var drawn = DrawnProbe.Draw(random, fine: true);
        var (probe, station) = drawn.BeginInAir(random, 12, 20);
        List<Dip> dips = [];
        for (var i = 0; i < Dips; i++)
        {
            probe.FlutterCelsius = DrawnProbe.Flutter(random);
            probe.LagSeconds = drawn.LagSeconds * Math.Exp(0.025 * random.Normal());
            dips.Add(Dip(station, probe, drawn, random, i == 0));
            station.Pass((6 * probe.LagSeconds) + 5);
            if (random.Chance(0.5))
            {
                probe.Rinse(random.Between(20, 34));
                station.Pass(random.Between(3, 10));
            }

            probe.TakeOut();
            station.Pass(random.Between(30, 90));
        }

        return dips;
    }

    private static Dip Dip(ProbeStation station, LaggingProbe probe, DrawnProbe drawn, SeededRandom random, bool first)
    {
        var (at, seen) = (station.Now, station.Readings.Count);
        var bowl = new Bowl(random.Between(36, 46), drawn.Room, random.LogBetween(0.01, 0.04));
        station.Dip(bowl);
        station.Pass(Constants * probe.LagSeconds * (1 + drawn.SheathRatio));
        while (station.Readings.Count < seen + FewestReadings)
            station.Pass(0.05);
        var truth = bowl.CelsiusAt(station.Readings[^1].Seconds - at);
        var told = station.Events.OfType<ProbeEvent>().LastOrDefault(one => ProbeStation.Seconds(one.At) > at);
        var readings = station.Readings[seen..];
        return new Dip(
            first, drawn.SheathRatio > 0, told is null ? double.NaN : (double)told.Celsius - truth, told is null ? double.NaN : (double)told.UncertaintyCelsius,
            ThreePoints(readings) - truth, readings[^1].Celsius - truth);
    }

    // The first, the middle and the last reading since the dip: the usual extrapolation of an exponential.
    private static double ThreePoints(List<(double Seconds, double Celsius)> readings)
    {
        var half = (readings.Count - 1) / 2;
        var (a, b, c) = (readings[^(1 + (2 * half))].Celsius, readings[^(1 + half)].Celsius, readings[^1].Celsius);
        return Math.Abs(a + c - (2 * b)) < 1e-9 ? c : ((a * c) - (b * b)) / (a + c - (2 * b));
    }
}
