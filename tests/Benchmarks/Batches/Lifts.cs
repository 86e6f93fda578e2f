using CaptureAgent.Agent.Events;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>A batch in range whose probe is lifted for less than ten seconds and put back into it.</summary>
/// <param name="Changed">Another state was told: of this batch, or of one that was thought to be new.</param>
/// <param name="Anew">It was taken for a new batch.</param>
internal readonly record struct PutBack(bool Changed, bool Anew);

/// <summary>The same, and what it is put into instead is at the stop line or above.</summary>
/// <param name="StopAfter">Time constants from the dip to <c>stop</c>; infinite: never.</param>
/// <param name="DoubtAfter">Time constants from the dip until the state is no longer in range.</param>
/// <param name="FalselyInRange">It was called in range while the new one was at or above the stop line.</param>
internal readonly record struct PutElsewhere(double StopAfter, double DoubtAfter, bool FalselyInRange);

/// <summary>A lift for stirring changes nothing, and is no way to miss a hot batch.</summary>
internal static class Lifts
{
    private const double LeastSeconds = 2, MostSeconds = 9.9;

    public static IReadOnlyList<PutBack> Back(int batches, ulong seed) =>
        [.. Draws.Each(batches, seed, PlayBack).Where(one => one is not null).Select(one => one!.Value)];

    public static IReadOnlyList<PutElsewhere> Elsewhere(int batches, ulong seed) =>
        [.. Draws.Each(batches, seed, PlayElsewhere).Where(one => one is not null).Select(one => one!.Value)];

    private static PutBack? PlayBack(SeededRandom random)
    {
        if (Lifted(random) is not { } lifted)
            return null;
        lifted.Probe.Dip();
        lifted.Station.Pass(60);
        var changes = Told(lifted.Station, lifted.Known).Where(one => one.StateChanged).ToList();
        return new PutBack(changes.Count > 0, changes.Any(one => one.Batch != 1));
    }

    private static PutElsewhere? PlayElsewhere(SeededRandom random)
    {
        if (Lifted(random) is not { } lifted)
            return null;
        var at = lifted.Station.Now;
        var bowl = new Bowl(random.Between(Danger.StopLine + 0.05, 52), lifted.Drawn.Room, random.LogBetween(0.01, 0.04));
        lifted.Station.Dip(bowl);
        lifted.Station.Pass(70);
        var told = Told(lifted.Station, lifted.Known).Where(one => one.StateChanged).Select(one => (one.State, Seconds: ProbeStation.Seconds(one.At) - at)).ToList();
        double After(Func<string, bool> which) =>
            told.Where(one => which(one.State)).Select(one => one.Seconds / lifted.Drawn.Constant).DefaultIfEmpty(double.PositiveInfinity).First();
        return new PutElsewhere(
            After(state => state == "stop"), After(state => state != "in-range"),
            told.Any(one => one.State == "in-range" && bowl.CelsiusAt(one.Seconds) >= Danger.StopLine));
    }

    private static IEnumerable<BatchEvent> Told(ProbeStation station, int known) => station.Events.Skip(known).OfType<BatchEvent>();

    private static (DrawnProbe Drawn, LaggingProbe Probe, ProbeStation Station, int Known)? Lifted(SeededRandom random)
    {
        var drawn = DrawnProbe.Draw(random, fine: random.Chance(0.5));

        // A wet probe that is waved about cools far more quickly than a dry one that hangs.
        if (random.Chance(0.5))
            drawn = drawn with { AirLag = drawn.LagSeconds * random.Between(1, 3) };
        var (probe, station) = drawn.BeginInAir(random, 8, 15);
        station.Dip(new Bowl(random.Between(39, 40.8), drawn.Room, random.LogBetween(0.005, 0.015)));
        station.Pass(100);
        if (station.Events.OfType<BatchEvent>().LastOrDefault() is not { State: "in-range" })
            return null;
        var known = station.Events.Count;
        probe.TakeOut();
        station.Pass(random.Between(LeastSeconds, MostSeconds));
        return (drawn, probe, station, known);
    }
}
