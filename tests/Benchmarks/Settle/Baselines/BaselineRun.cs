using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>Plays a placing to a baseline. It is told more than in a nursery: when the chick comes, and about what it weighs, so that only the rule is judged.</summary>
internal static class BaselineRun
{
    private const double TareSeconds = 1.5;

    public static Answer? Play(IBaseline rule, Placing placing, double lowered, IReadOnlyList<Delivered> readings)
    {
        var division = (double)placing.Scale.DivisionGrams;
        var tare = Tare(lowered, division, readings);
        var share = placing.ExpectedGrams < 20 ? 1 : 0.3 * placing.ExpectedGrams;
        var least = Math.Max(share, 5 * division);
        foreach (var (arrivesAt, sample) in readings)
        {
            if (sample.Seconds < lowered)
                continue;
            if (sample.Range != ShownRange.Within)
            {
                rule.Clear();
                continue;
            }

            // The digits are taken for grams, as such loops do.
            var net = (double)sample.Value - tare;
            if (rule.Add(sample, net, net > least, division) is { } grams)
                return new(arrivesAt, grams, double.NaN);
        }

        return null;
    }

    private static double Tare(double lowered, double division, IReadOnlyList<Delivered> readings)
    {
        var mean = readings
            .Where(reading => reading.Sample.Seconds > lowered - TareSeconds && reading.Sample.Seconds < lowered)
            .Select(reading => (double)reading.Sample.Value)
            .DefaultIfEmpty(0)
            .Average();
        return Math.Round(mean / division) * division;
    }
}
