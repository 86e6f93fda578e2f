namespace CaptureAgent.Agent.Feeding.Probes;

/// <summary>What a probe's own dips have taught of its lag. Nothing learnt yet: anything from one second to a minute, five being the likeliest.</summary>
/// <remarks>Time constants of sheathed probes in stirred water are 0.2 to 4 s, of capsules 5 to 10 s, and longer in thick formula (a maker's table of 2012; the capsules: common practice, no source).</remarks>
internal sealed class LagMemory
{
    private const double Shortest = 1, Longest = 40, Spacing = 0.04;

    private const double UnknownMean = 1.6, UnknownDeviation = 0.7;

    /// <summary>A dip may be unlike all others (stirred, or in something thinner).</summary>
    private const double Surprise = 0.1;

    /// <summary>How much the constant differs from dip to dip (relative), before dips have shown it.</summary>
    private const double DipToDip = 0.06;

    private const int Kept = 12;

    private readonly Queue<double> learnt = [];
    private double[] ratios = [.. Enumerable.Repeat(1.0 / Ratios.Count, Ratios.Count)];
    private double mean, deviation;

    /// <summary>Time constants that are considered, in seconds, four percent apart.</summary>
    public static IReadOnlyList<double> Constants { get; } =
        [.. Enumerable.Range(0, 1 + (int)Math.Ceiling(Math.Log(Longest / Shortest) / Spacing)).Select(i => Shortest * Math.Exp(i * Spacing))];

    public static IReadOnlyList<double> LogConstants { get; } = [.. Constants.Select(seconds => Math.Log(seconds))];

    /// <summary>Second time constants that are considered, as parts of the first.</summary>
    public static IReadOnlyList<double> Ratios { get; } = [0, 0.1, 0.2, 0.3, 0.45, 0.7];

    /// <summary>The time constant, in seconds; null until a dip has shown it.</summary>
    public double? ConstantSeconds => learnt.Count > 0 ? Math.Exp(mean) : null;

    public double LogPrior(int constant, int ratio)
    {
        var log = LogConstants[constant];
        var unknown = Density(log, UnknownMean, UnknownDeviation);
        var known = learnt.Count == 0 ? unknown : ((1 - Surprise) * Density(log, mean, deviation)) + (Surprise * unknown);
        return Math.Log(Math.Max(known, 1e-30)) + Math.Log(Math.Max(ratios[ratio], 1e-12));
    }

    /// <summary>A dip has come to rest: its whole rise was seen.</summary>
    public void Learn(StepFit dip)
    {
        Learn(dip.LogConstant.Mean);
        var chances = dip.RatioChances();
        ratios = [.. ratios.Select((before, i) => (0.5 * before) + (0.4 * chances[i]) + (0.1 / Ratios.Count))];
    }

    /// <param name="logConstant">Natural logarithm of seconds.</param>
    public void Learn(double logConstant)
    {
        learnt.Enqueue(logConstant);
        if (learnt.Count > Kept)
            learnt.Dequeue();
        mean = learnt.Average();
        var scatter = learnt.Sum(one => (one - mean) * (one - mean));
        var between = Math.Sqrt(((2 * DipToDip * DipToDip) + scatter) / (1 + learnt.Count));
        deviation = between * Math.Sqrt(1 + (1.0 / learnt.Count));
    }

    private static double Density(double x, double mean, double deviation) =>
        Math.Exp(-0.5 * Math.Pow((x - mean) / deviation, 2)) / deviation;
}
