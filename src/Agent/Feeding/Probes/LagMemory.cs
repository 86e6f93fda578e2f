namespace CaptureAgent.Agent.Feeding.Probes;

/// <summary>What a probe's own dips have taught of its lag. Nothing learnt yet: anything from one second to a minute, five being the likeliest.</summary>
/// <remarks>Time constants of sheathed probes in stirred water are 0.2 to 4 s, of capsules 5 to 10 s, and longer in thick formula (a maker's table of 2012; the capsules: common practice, no source).</remarks>
internal sealed class LagMemory
{
    private const double Shortest = 1, Longest = 40, Spacing = 0.04;

    private const double UnknownMean = 1.6, UnknownDeviation = 0.7;

    /// <summary>Three probes in ten show no second constant, and one as long as half of the first is rare (no source; a guess that two dips outvote).</summary>
    private const double Plain = 4, ThickSheath = 0.5, ThickFrom = 0.4;

    /// <summary>A dip may be unlike all others (stirred, or in something thinner).</summary>
    private const double Surprise = 0.08;

    /// <summary>How much the constant differs from dip to dip (relative), before dips have shown it.</summary>
    private const double DipToDip = 0.03;

    /// <summary>So many dips are remembered.</summary>
    public const int Kept = 6;

    private readonly Queue<(double Log, double[,] Chances)> learnt = [];
    private double[,] prior = Unknown();
    private double mean;
    private (double Constant, string Lags)? news;

    /// <summary>Time constants that are considered, in seconds, four percent apart.</summary>
    public static IReadOnlyList<double> Constants { get; } =
        [.. Enumerable.Range(0, 1 + (int)Math.Ceiling(Math.Log(Longest / Shortest) / Spacing)).Select(i => Shortest * Math.Exp(i * Spacing))];

    public static IReadOnlyList<double> LogConstants { get; } = [.. Constants.Select(seconds => Math.Log(seconds))];

    /// <summary>Second time constants that are considered, as parts of the first.</summary>
    public static IReadOnlyList<double> Ratios { get; } = [0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.36, 0.43, 0.52, 0.7];

    /// <summary>The time constant, in seconds; null until a dip has shown it.</summary>
    public double? ConstantSeconds => learnt.Count > 0 ? Math.Exp(mean) : null;

    /// <summary>Natural logarithm of the chance of a pair, before the dip is seen.</summary>
    public double LogPrior(int constant, int ratio) => Math.Log(prior[constant, ratio]);

    /// <summary>A dip has come to rest: its whole rise was seen.</summary>
    public void Learn(StepFit dip)
    {
        var chances = dip.LagChances();
        Remember(dip.LogConstant.Mean, chances);
        news = (Math.Exp(dip.LogConstant.Mean), LagText.Of(chances));
    }

    /// <summary>What the newest dip has shown, once: its time constant in seconds, and all as text; null if there is nothing new.</summary>
    public (double Constant, string Lags)? TakeNews()
    {
        var told = news;
        news = null;
        return told;
    }

    /// <summary>What earlier dips have shown, oldest first, as <see cref="TakeNews"/> gave it. What cannot be read is left out.</summary>
    public static LagMemory Recalled(IEnumerable<string> dips)
    {
        var memory = new LagMemory();
        foreach (var dip in dips)
        {
            if (LagText.Read(dip) is { } shown)
                memory.Remember(shown.LogMean, shown.Chances);
        }

        return memory;
    }

    private void Remember(double log, double[,] chances)
    {
        learnt.Enqueue((log, chances));
        if (learnt.Count > Kept)
            learnt.Dequeue();
        mean = learnt.Average(one => one.Log);
        var scatter = learnt.Sum(one => (one.Log - mean) * (one.Log - mean));
        prior = Expect(Math.Sqrt(((2 * DipToDip * DipToDip) + scatter) / (1 + learnt.Count)));
    }

    // The mean of what the dips have shown, each blurred by what differs from dip to dip, and some room for surprise.
    private double[,] Expect(double blur)
    {
        var expected = Unknown();
        var reach = Math.Max(1, (int)Math.Ceiling(3 * blur / Spacing));
        double[] kernel = [.. Enumerable.Range(-reach, (2 * reach) + 1).Select(k => Math.Exp(-0.5 * Math.Pow(k * Spacing / blur, 2)))];
        var total = kernel.Sum() * learnt.Count;
        for (var i = 0; i < Constants.Count; i++)
        {
            for (var j = 0; j < Ratios.Count; j++)
            {
                var shown = 0.0;
                for (var k = Math.Max(0, i - reach); k <= Math.Min(Constants.Count - 1, i + reach); k++)
                {
                    foreach (var (_, chances) in learnt)
                        shown += kernel[k - i + reach] * chances[k, j];
                }

                expected[i, j] = Math.Max((Surprise * expected[i, j]) + ((1 - Surprise) * shown / total), 1e-12);
            }
        }

        return expected;
    }

    private static double[,] Unknown()
    {
        var chances = new double[Constants.Count, Ratios.Count];
        var total = 0.0;
        for (var i = 0; i < Constants.Count; i++)
        {
            var likely = Math.Exp(-0.5 * Math.Pow((LogConstants[i] - UnknownMean) / UnknownDeviation, 2));
            for (var j = 0; j < Ratios.Count; j++)
                total += chances[i, j] = likely * (Ratios[j] == 0 ? Plain : Ratios[j] > ThickFrom ? ThickSheath : 1);
        }

        for (var i = 0; i < Constants.Count; i++)
        {
            for (var j = 0; j < Ratios.Count; j++)
                chances[i, j] = Math.Max(chances[i, j] / total, 1e-12);
        }

        return chances;
    }
}
