using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>One batch in range whose probe is taken out or whose link is lost.</summary>
/// <param name="After">Seconds until it is unmeasured (or anything but in range); infinite: never.</param>
/// <param name="Allowed">Seconds allowed: the longer of 15 and three time constants, or three for a link.</param>
/// <param name="Again">It was called in range again while the probe was out.</param>
internal readonly record struct AbsentProbe(bool Link, double After, double Allowed, bool Again);

/// <summary>A probe that is not in the batch measures nothing.</summary>
internal static class Absence
{
    public static IReadOnlyList<AbsentProbe> Run(int batches, ulong seed) =>
        [.. Draws.Each(batches, seed, Play).Where(one => one is not null).Select(one => one!.Value)];

    private static AbsentProbe? Play(SeededRandom random)
    {
        var drawn = DrawnProbe.Draw(random, fine: random.Chance(0.5));
        var (probe, station) = drawn.BeginInAir(random, 8, 15);
        var bowl = new Bowl(random.Between(39, 40.8), drawn.Room, random.LogBetween(0.005, 0.015));
        station.Dip(bowl);
        station.Pass(100);
        if (station.Events.OfType<BatchEvent>().LastOrDefault() is not { State: "in-range" })
            return null;
        var (at, known) = (station.Now, station.Events.Count);
        var link = random.Chance(0.2);
        if (link)
            station.Link(LinkChange.Down);
        else
        {
            probe.TakeOut();
            station.Pass(90);
        }

        var after = station.Events.Skip(known).OfType<BatchEvent>().ToList();
        var first = after.FindIndex(one => one.State != "in-range");
        return new AbsentProbe(
            link, first < 0 ? double.PositiveInfinity : ProbeStation.Seconds(after[first].At) - at,
            link ? 3 : Math.Max(15, 3 * drawn.Constant), after.Skip(Math.Max(first, 0)).Any(one => one.State == "in-range"));
    }
}
