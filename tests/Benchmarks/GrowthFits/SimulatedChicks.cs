using CaptureAgent.Agent.Growth.Models;
using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Benchmarks.GrowthFits;

/// <summary>Morning weights of simulated chicks: logistic growth of sizes and rates over the range of parrots, 2 % day-to-day noise, whole tenths of a gram.</summary>
internal static class SimulatedChicks
{
    private const double Noise = 0.02;

    /// <returns>Days of age, rising, and grams.</returns>
    public static (double[] Ages, double[] Grams) Chick(int seed, int weights)
    {
        var random = new SeededRandom((ulong)seed);
        var asymptote = random.LogBetween(40, 1200);
        // The allometric rate of parrots, and its spread.
        var rate = 0.489 * Math.Pow(asymptote, -0.231) * Math.Exp(0.25 * random.Normal());
        double[] truth = [asymptote, rate, 2.84 / rate];
        // Spread over the time of growth, however fast that is; a weight a day at most.
        var step = Math.Max(1, 6.5 / rate / weights);
        var (ages, grams) = (new double[weights], new double[weights]);
        for (var i = 0; i < weights; i++)
        {
            ages[i] = Math.Floor(1 + i * step);
            grams[i] = Math.Round(GrowthModel.Logistic.Grams(ages[i], truth) * Math.Exp(Noise * random.Normal()), 1);
        }

        return (ages, grams);
    }
}
