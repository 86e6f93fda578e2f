using CaptureAgent.Agent.Events;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>One dip into a batch at or above the stop line.</summary>
/// <param name="StopAfter">Time constants from the dip to the first <c>stop</c>; infinite: never.</param>
/// <param name="FalselyInRange">It was called in range while it was at or above the stop line.</param>
/// <param name="HotFor">Time constants for which it stays at or above the stop line.</param>
/// <param name="NaiveStopAfter">The same for the last reading against the thresholds.</param>
/// <param name="NaivelyInRange">The last reading passed through the band.</param>
internal readonly record struct DangerousBatch(double StopAfter, bool FalselyInRange, double HotFor, double NaiveStopAfter, bool NaivelyInRange);

/// <summary>Batches of 42.5 to 52 °C, first dips, every resolution and rate.</summary>
internal static class Danger
{
    public const double StopLine = 42.5, Low = 38, High = 41;

    public static IReadOnlyList<DangerousBatch> Run(int batches, ulong seed) => Draws.Each(batches, seed, Play);

    private static DangerousBatch Play(SeededRandom random)
    {
        var drawn = DrawnProbe.Draw(random, fine: random.Chance(0.5));
        var (probe, station) = drawn.BeginInAir(random, 8, 15);
        probe.FlutterCelsius = DrawnProbe.Flutter(random);
        var at = station.Now;
        var bowl = new Bowl(random.Between(StopLine + 0.05, 52), drawn.Room, random.LogBetween(0.01, 0.04));
        station.Dip(bowl);
        station.Pass(70);
        var told = station.Events.OfType<BatchEvent>().Select(one => (one.State, Seconds: ProbeStation.Seconds(one.At) - at)).ToList();
        var readings = station.Readings.Where(one => one.Seconds > at).ToList();
        return new DangerousBatch(
            told.Where(one => one.State == "stop").Select(one => one.Seconds / drawn.Constant).DefaultIfEmpty(double.PositiveInfinity).First(),
            told.Any(one => one.State == "in-range" && bowl.CelsiusAt(one.Seconds) >= StopLine),
            Math.Log((bowl.StartCelsius - drawn.Room) / (StopLine - drawn.Room)) / bowl.PerMinute * 60 / drawn.Constant,
            readings.Where(one => one.Celsius >= StopLine).Select(one => (one.Seconds - at) / drawn.Constant).DefaultIfEmpty(double.PositiveInfinity).First(),
            readings.Any(one => one.Celsius is >= Low and <= High && bowl.CelsiusAt(one.Seconds - at) >= StopLine));
    }
}
