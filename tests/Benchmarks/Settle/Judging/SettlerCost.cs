using System.Diagnostics;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Simulators.Physics.Scales;
using SimulatedPlacing = CaptureAgent.Simulators.Physics.Placings.Placing;

namespace CaptureAgent.Benchmarks.Settle.Judging;

/// <summary>What one reading costs in the settler itself: nothing but <see cref="PlateauSettler.Add"/> is timed, on one thread.</summary>
/// <param name="Samples">Readings of one turn.</param>
/// <param name="Microseconds">A sample; of the quickest turn, for others use the machine too.</param>
/// <param name="Bytes">Allocated a sample, over all turns after the first.</param>
internal readonly record struct SettlerCost(long Samples, double Microseconds, double Bytes)
{
    private const int Turns = 5;

    public static SettlerCost Measure(IEnumerable<SimulatedPlacing> placings)
    {
        Load[] loads = [.. placings.Select(Load.Of)];
        var settler = new PlateauSettler();
        Turn(settler, loads);
        var samples = loads.Sum(load => (long)load.Seconds.Length);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var quickest = double.PositiveInfinity;
        for (var turn = 0; turn < Turns; turn++)
            quickest = Math.Min(quickest, Turn(settler, loads));
        return new(samples, quickest / samples, (double)(GC.GetAllocatedBytesForCurrentThread() - before) / samples / Turns);
    }

    // In microseconds.
    private static double Turn(PlateauSettler settler, Load[] loads)
    {
        var start = Stopwatch.GetTimestamp();
        foreach (var load in loads)
        {
            settler.Begin(load.Context);
            settler.Expect(load.Expected);
            for (var i = 0; i < load.Seconds.Length; i++)
                settler.Add(load.Seconds[i], load.Net[i]);
        }

        return Stopwatch.GetElapsedTime(start).TotalMicroseconds;
    }

    private sealed record Load(SettleContext Context, double Expected, double[] Seconds, double[] Net)
    {
        /// <summary>From the chick's coming to the end of the script.</summary>
        public static Load Of(SimulatedPlacing placing)
        {
            var lowered = placing.LoweredAt();
            ScaleSample[] within = [.. placing.Readings().Select(reading => reading.Sample).Where(sample => sample.Range == ShownRange.Within)];
            var tare = (double)within.LastOrDefault(sample => sample.Seconds < lowered).Value;
            within = [.. within.Where(sample => sample.Seconds >= lowered)];
            var division = (double)placing.Scale.DivisionGrams;
            return new(
                new SettleContext(lowered, division, 0.3 * division, 0.3 * division),
                placing.ExpectedGrams,
                [.. within.Select(sample => sample.Seconds)],
                [.. within.Select(sample => (double)sample.Value - tare)]);
        }
    }
}
