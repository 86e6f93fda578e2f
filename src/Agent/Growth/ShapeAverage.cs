using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Growth;

/// <summary>Predicts a weight as the average over all shapes of growth, each weighed by how well it foretold the chick's mornings so far (Bayesian model averaging).</summary>
/// <remarks>
/// Under each shape the height is the only unknown: a random walk, seen with a morning's noise (Kalman filter, one state). Weights of shapes are
/// forgotten slowly, so that a chick may leave one shape for another. A morning that is far off moves little (Huber). The spread is scaled by how
/// far the chick's own mornings lay off what was foretold. The constants were chosen on simulated chicks; see the benchmark 'crop'.
/// </remarks>
internal sealed class ShapeAverage : IExpectedWeight
{
    /// <summary>Fewer mornings say nothing of a chick's growth.</summary>
    private const int FewestMornings = 4;

    /// <summary>Older mornings tell nothing more.</summary>
    private const int MostMornings = 40;

    private const int LongestGapDays = 14;

    /// <summary>A morning's scatter, of the logarithm of weight.</summary>
    private const double Noise = 0.014;

    /// <summary>How far the height walks in a day, and as a share of the day's growth.</summary>
    private const double Walk = 0.008, WalkShare = 0.03;

    private const double Forget = 0.98, Renew = 0.01;

    private const double HuberDeviations = 2.5;

    /// <summary>The prior scatter counts as so many mornings; one morning counts at most so much.</summary>
    private const double PriorMornings = 8, MostSurprise = 9;

    /// <summary>The scatter of a chick's first week tells nothing of its later one.</summary>
    private const int FirstWeek = 7;

    public ExpectedWeight? For(IReadOnlyList<Weight> weights, DateOnly day, int? ageDays, string? species)
    {
        if (ageDays is not { } age)
            return null;
        var mornings = Mornings(weights, day, age);
        if (mornings.Count < FewestMornings || age - mornings[^1].Age > LongestGapDays)
            return null;

        var bank = new Bank(GrowthShapes.For(species), mornings[0]);
        double surprise = 0;
        var judged = 0;
        for (var i = 1; i < mornings.Count; i++)
        {
            var (mean, variance) = bank.Foretell(mornings[i].Age);
            var off = mornings[i].Log - mean;
            if (mornings[i].Age > FirstWeek)
            {
                surprise += Math.Min(off * off / variance, MostSurprise);
                judged++;
            }

            bank.Learn(mornings[i].Log);
        }

        var today = bank.Foretell(age);
        var scale = (PriorMornings + surprise) / (PriorMornings + judged);
        return new ExpectedWeight(Math.Exp(today.Mean), Math.Sqrt(today.Variance * scale), mornings.Count);
    }

    private static List<Morning> Mornings(IReadOnlyList<Weight> weights, DateOnly day, int age)
    {
        var mornings = new List<Morning>(MostMornings);
        for (var i = weights.Count - 1; i >= 0 && mornings.Count < MostMornings; i--)
        {
            var at = age - (day.DayNumber - weights[i].Day.DayNumber);
            if (weights[i].Day < day && at >= 0 && weights[i].Grams > 0)
                mornings.Add(new Morning(at, Math.Log((double)weights[i].Grams)));
        }

        mornings.Reverse();
        return mornings;
    }

    private readonly record struct Morning(int Age, double Log);

    /// <summary>The height of the chick's curve under every shape.</summary>
    private sealed class Bank
    {
        private readonly IReadOnlyList<GrowthShape> shapes;
        private readonly double[] level, variance, share, prior;
        private int age;
        private double mean, spread;

        public Bank(IReadOnlyList<GrowthShape> shapes, Morning first)
        {
            this.shapes = shapes;
            level = new double[shapes.Count];
            variance = new double[shapes.Count];
            Array.Fill(level, first.Log);
            Array.Fill(variance, Noise * Noise);
            prior = [.. shapes.Select(shape => Math.Exp(shape.LogPriorFrom(first.Age)))];
            Normalise(prior);
            share = [.. prior];
            age = first.Age;
        }

        /// <summary>Mean and variance of the logarithm of that morning's weight.</summary>
        public (double Mean, double Variance) Foretell(int day)
        {
            var (from, to) = (Math.Min(age, GrowthShapes.OldestDay), Math.Min(day, GrowthShapes.OldestDay));
            var walk = Walk * Walk * (day - age);
            mean = 0;
            for (var i = 0; i < level.Length; i++)
            {
                var table = shapes[i].LogWeight;
                var growth = table[to] - table[from];
                level[i] += growth;
                variance[i] += walk + WalkShare * WalkShare * growth * growth;
                share[i] = Math.Pow(share[i], Forget);
            }

            Normalise(share);
            for (var i = 0; i < level.Length; i++)
            {
                share[i] = (1 - Renew) * share[i] + Renew * prior[i];
                mean += share[i] * level[i];
            }

            spread = 0;
            for (var i = 0; i < level.Length; i++)
                spread += share[i] * (variance[i] + Noise * Noise + (level[i] - mean) * (level[i] - mean));
            age = day;
            return (mean, spread);
        }

        /// <summary>Takes the morning that was just foretold.</summary>
        public void Learn(double log)
        {
            var allowed = HuberDeviations * Math.Sqrt(spread);
            for (var i = 0; i < level.Length; i++)
            {
                var total = variance[i] + Noise * Noise;
                var limit = allowed + Math.Abs(level[i] - mean);
                var off = Math.Clamp(log - level[i], -limit, limit);
                share[i] *= Math.Exp(-0.5 * off * off / total) / Math.Sqrt(total);
                var gain = variance[i] / total;
                level[i] += gain * off;
                variance[i] -= gain * variance[i];
            }

            Normalise(share);
        }

        private static void Normalise(double[] shares)
        {
            var sum = shares.Sum();
            for (var i = 0; i < shares.Length; i++)
                shares[i] /= sum;
        }
    }
}
