using CaptureAgent.Agent.Events;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>One batch in the band, the probe left in it.</summary>
/// <param name="Stopped">It was called a stop, for however short.</param>
/// <param name="Settled">Time constants from the dip to the first settled answer; infinite: none.</param>
/// <param name="InRange">Seconds from the dip to <c>in-range</c>; infinite: never.</param>
/// <param name="Early">It was called in range, or once in range, while the probe was more than half a degree below.</param>
internal readonly record struct GoodBatch(bool Stopped, double Settled, double InRange, bool Early);

/// <summary>One batch below the stop line, first dip.</summary>
internal readonly record struct FalseStop(double Celsius, bool Stopped);

/// <summary>What caution costs.</summary>
internal static class GoodBatches
{
    public static IReadOnlyList<GoodBatch> Run(int batches, ulong seed) => Draws.Each(batches, seed, Play);

    /// <summary>All that is not dangerous, the nearly hot included.</summary>
    public static IReadOnlyList<FalseStop> Wide(int batches, ulong seed) => Draws.Each(batches, seed, PlayWide);

    private static FalseStop PlayWide(SeededRandom random)
    {
        var drawn = DrawnProbe.Draw(random, fine: random.Chance(0.5));
        var (probe, station) = drawn.BeginInAir(random, 8, 15);
        probe.FlutterCelsius = DrawnProbe.Flutter(random);
        var bowl = new Bowl(random.Between(34, Danger.StopLine - 0.1), drawn.Room, random.LogBetween(0.01, 0.04));
        station.Dip(bowl);
        station.Pass(70);
        return new FalseStop(bowl.StartCelsius, station.Events.OfType<BatchEvent>().Any(one => one.State == "stop"));
    }

    private static GoodBatch Play(SeededRandom random)
    {
        var drawn = DrawnProbe.Draw(random, fine: random.Chance(0.5));
        var (probe, station) = drawn.BeginInAir(random, 8, 15);
        probe.FlutterCelsius = DrawnProbe.Flutter(random);
        var at = station.Now;
        var bowl = new Bowl(random.Between(39, 40.8), drawn.Room, random.LogBetween(0.01, 0.03));
        station.Dip(bowl);
        var early = false;
        station.Pass(110, () =>
        {
            var state = station.Events.OfType<BatchEvent>().LastOrDefault()?.State;
            early |= state is "one-reading" or "in-range" && bowl.CelsiusAt(station.Now - at) - probe.TipCelsius > 0.5;
            return false;
        });
        var told = station.Events.OfType<BatchEvent>().ToList();
        double After(Func<BatchEvent, bool> which) =>
            told.Where(which).Select(one => ProbeStation.Seconds(one.At) - at).DefaultIfEmpty(double.PositiveInfinity).First();
        return new GoodBatch(told.Any(one => one.State == "stop"), After(one => one.State == "one-reading") / drawn.Constant, After(one => one.State == "in-range"), early);
    }
}
